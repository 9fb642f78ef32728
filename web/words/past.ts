import { dayText } from './numbers.ts';

export const past = {
  title: 'The past',
  asAt: 'As it was on',
  asAtHint: 'What had happened by the end of that day.',
  knownAt: 'As it was written down by',
  knownAtHint: 'What had been recorded by the end of that day.',
  looking: (asAt: string | undefined, knownAt: string | undefined) =>
    [
      'You are looking at the past:',
      [
        asAt && `what had happened by ${dayText(asAt)}`,
        knownAt && `what had been written down by ${dayText(knownAt)}`,
      ]
        .filter(Boolean)
        .join(', '),
    ].join(' '),
  nothing: 'Nothing can be recorded from here.',
  now: 'Back to now',
} as const;
