import { dayText } from './numbers.ts';

export const when = {
  now: 'It happened now. Change the day',
  on: (day: string) => `It happened on ${dayText(day)}`,
  day: 'The day it happened',
  time: 'The time of day',
  timeHint: 'Only where the order within that day matters.',
  hint: 'Written down late is no matter: both days are kept.',
} as const;
