/** How counts and rates are said in words. */

export const plural = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** '16', or '0.4' where a whole number would say nothing. */
export function percent(rate: number): string {
  const hundredths = 100 * rate;
  if (hundredths > 0 && hundredths < 0.95) return hundredths < 0.05 ? '0.1' : hundredths.toFixed(1);
  if (hundredths < 100 && hundredths > 99.05)
    return hundredths.toFixed(1) === '100.0' ? '99.9' : hundredths.toFixed(1);
  return String(Math.round(hundredths));
}

export const between = ({ low, high }: { readonly low: number; readonly high: number }): string =>
  `between ${percent(low)} % and ${percent(high)} % is believable`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** 'a', 'a and b', 'a, b and c'. */
export const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** An id of the trade as words. */
export const opened = (id: string): string => id.replaceAll('-', ' ');

const DAY = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  timeZone: 'UTC',
});
/** '1 March 2026'. */
export const dayText = (day: string): string => DAY.format(new Date(`${day}T12:00:00Z`));

const LONG_DAY = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  timeZone: 'UTC',
});
/** '20 April 2026', for who reads a letter. */
export const longDayText = (day: string): string => LONG_DAY.format(new Date(`${day}T12:00:00Z`));
