/** How this device stands: what waits on it, and what is wrong with keeping it. */
export const stands = {
  title: 'Waiting to be sent',
  about: 'What was noted on this device, and what it keeps for work without the network.',
  entries: (n: number) => (n === 1 ? '1 entry waiting to be sent' : `${n} entries waiting to be sent`),
  oldest: (when: string) => `the oldest from ${when}`,
  needsYou: (n: number) => (n === 1 ? '1 entry needs you' : `${n} entries need you`),
  away: 'The studio is not heard.',
  awayAsOf: (when: string) => `The studio is not heard: this is as it was at ${when}.`,
  awayNoted: (when: string) =>
    `The studio is not heard: this is as it was at ${when}, with what you noted since.`,
  signedOut: 'The studio asks for the passphrase before it takes anything from this device.',
  keepsNothing:
    'This browser keeps nothing here (a private window, or storage is turned off). What you note is lost unless the studio is heard.',
  full: 'This device has no room left: this was not kept. Make room on it, or write it on paper, then note it again.',
  fullUnsure:
    'This device has no room left, and the studio did not answer: look whether this was recorded before you note it again.',
  fullLine:
    'This device has no room left. Until there is, something can be noted only while the studio is heard.',
  failed:
    'This device could not keep it. Try again; if it happens again, write it on paper and load the page anew.',
  dayOf: (when: string) =>
    `This device has no room for the day’s work: without the network it shows what it kept at ${when}.`,
  dayNone: 'This device has no room for the day’s work: without the network it has nothing to show.',
  gone: (n: number, when: string) =>
    `The browser has cleared what was kept here: ${n === 1 ? '1 entry' : `${n} entries`}, the oldest from ${when}, had not been sent and must be noted again.`,
  putBack: (n: number) =>
    `The browser has cleared what was kept here. ${n === 1 ? '1 entry was still on this screen and is' : `${n} entries were still on this screen and are`} kept again. Leave the page open until they are sent.`,
  goneSeen: 'I have seen it',
  newer: 'There is a newer page.',
  useNewer: 'Use it now',
} as const;
