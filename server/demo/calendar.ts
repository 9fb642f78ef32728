/** The demo studio's days: two years up to yesterday, its terms and its weeks off. */

export const ZONE = 'Europe/London';
/** Two years of 52 weeks, so that the demo starts on the same day of the week as today. */
export const DAYS = 728;

const DAY = 86_400_000;

export const dayAfter = (day: string, days = 1): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY).toISOString().slice(0, 10);

/** From 0 for Sunday. */
export const weekday = (day: string): number => new Date(`${day}T00:00:00Z`).getUTCDay();

const offsets = new Intl.DateTimeFormat('en-GB', { timeZone: ZONE, timeZoneName: 'longOffset' });

const known = new Map<string, string>();

/** '+01:00' in summer: the studio's clock at noon, and at every hour that the demo uses. */
export function offsetOf(day: string): string {
  let offset = known.get(day);
  if (offset === undefined) {
    offset = readOffset(day);
    known.set(day, offset);
  }
  return offset;
}

function readOffset(day: string): string {
  const parts = offsets.formatToParts(new Date(`${day}T12:00:00Z`));
  const name = parts.find((part) => part.type === 'timeZoneName')!.value;
  return name === 'GMT' ? '+00:00' : name.slice('GMT'.length);
}

/** A moment of the day, `seconds` after its midnight. */
export function momentOf(day: string, seconds: number): string {
  return `${new Date(Date.parse(`${day}T00:00:00Z`) + seconds * 1000).toISOString().slice(0, 19)}${offsetOf(day)}`;
}

/** Classes run in three terms a year, from and to 'MM-DD'. */
const TERMS = [
  { name: 'spring', from: '01-12', to: '03-28' },
  { name: 'summer', from: '04-20', to: '07-06' },
  { name: 'autumn', from: '09-14', to: '12-06' },
] as const;

/** '2026 autumn', or undefined between terms. */
export function termOf(day: string): string | undefined {
  const date = day.slice(5);
  const term = TERMS.find(({ from, to }) => date >= from && date <= to);
  return term && `${day.slice(0, 4)} ${term.name}`;
}

const OFF = [
  { from: '12-22', to: '12-31' },
  { from: '01-01', to: '01-04' },
  { from: '08-08', to: '08-21' },
] as const;

/** Weeks in which nothing is made. */
export const isOff = (day: string): boolean =>
  OFF.some(({ from, to }) => day.slice(5) >= from && day.slice(5) <= to);
