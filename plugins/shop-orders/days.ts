/** Days of the calendar as text ('2026-05-01'), and how often. */
const DAY = 86_400_000;

export const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY).toISOString().slice(0, 10);

/** Whole days from one to the other; below zero when `to` is earlier. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY);

const words = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  timeZone: 'UTC',
});
/** '2026-05-04' is '4 May 2026'. */
export const dayInWords = (day: string): string => words.format(new Date(`${day}T12:00:00Z`));

/** How often, as it is said: once, twice, 3 times. */
export const timesInWords = (n: number): string => (n === 1 ? 'once' : n === 2 ? 'twice' : `${n} times`);
