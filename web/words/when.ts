import { dayText } from './numbers.ts';

export const when = {
  now: 'It happened now. Change the day',
  on: (day: string) => `It happened on ${dayText(day)}`,
  day: 'The day it happened',
  hint: 'Written down late is no matter: both days are kept.',
} as const;
