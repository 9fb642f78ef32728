/** How the year is said in words. */
import { dayText, percent } from '../../../server/contract/reports/words.ts';
import type { Year } from '../../../server/contract/year.ts';

/** '+4', '−2', '0': a difference of rates in a hundred. */
export function points(difference: number): string {
  const size = percent(Math.abs(difference));
  return Number(size) === 0 ? '0' : `${difference > 0 ? '+' : '−'}${size}`;
}

export const daysText = ({ from, to }: Year): string => `${dayText(from)} to ${dayText(to)}`;
