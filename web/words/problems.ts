/** What happened, what was kept, what to do. Sentences of refusals come from the server. */
export const problems = {
  notReached: 'Wareboard could not be reached.',
  notReachedKept: 'Nothing was recorded; what you entered is still on this page.',
  notReachedDo: 'See that it is running on the laptop, then try again.',
  refusedKept: 'Nothing was recorded.',
  partKept: 'What came before it was recorded; this was not.',
  server: 'Wareboard could not do this.',
  serverKept: 'What had been recorded before is safe.',
  serverDo: 'Try again. If it happens again, restart Wareboard.',
  readKept: 'What you see may be older than what is recorded.',
  screen: 'This screen could not be shown.',
  screenKept: 'Nothing that is recorded was touched.',
  screenDo: 'Go to Today, or load the page again.',
  notThere: 'There is no such entry in the record.',
} as const;
