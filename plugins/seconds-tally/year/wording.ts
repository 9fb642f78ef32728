/** How the year is said in words. */
import type { Year } from '../../../server/contract/year.ts';

export const plural = (n: number, one: string, many = `${one}s`): string =>
  `${n.toLocaleString('en-GB')} ${n === 1 ? one : many}`;

/** '16', or '0.4' where a whole number would say nothing. */
export function percent(rate: number): string {
  const hundredths = 100 * rate;
  return hundredths > 0 && hundredths < 0.95 ? hundredths.toFixed(1) : String(Math.round(hundredths));
}

/** '+4', '−2', '0': a difference of rates in a hundred. */
export function points(difference: number): string {
  const size = percent(Math.abs(difference));
  return Number(size) === 0 ? '0' : `${difference > 0 ? '+' : '−'}${size}`;
}

export const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** An id of the trade as words. */
export const opened = (id: string): string => id.replaceAll('-', ' ');

const DAY = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  timeZone: 'UTC',
});
export const dayText = (day: string): string => DAY.format(new Date(`${day}T12:00:00Z`));
export const daysText = ({ from, to }: Year): string => `${dayText(from)} to ${dayText(to)}`;

/** Minor units as money, with as many places as the currency has. */
export function moneyText(minor: number, currency: string): string {
  const format = new Intl.NumberFormat('en-GB', { style: 'currency', currency });
  return format.format(minor / 10 ** (format.resolvedOptions().maximumFractionDigits ?? 2));
}

export const between = ({ low, high }: { readonly low: number; readonly high: number }): string =>
  `between ${percent(low)} % and ${percent(high)} % is believable`;
