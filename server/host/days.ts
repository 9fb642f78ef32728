/** Days and moments in the studio's zone. Instants are milliseconds since 1970 UTC. */

const formats = new Map<string, Intl.DateTimeFormat>();

function formatOf(zone: string): Intl.DateTimeFormat {
  let format = formats.get(zone);
  if (!format) {
    const digits = {
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
    } as const;
    format = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      calendar: 'gregory',
      hourCycle: 'h23',
      ...digits,
    });
    formats.set(zone, format);
  }
  return format;
}

/** What the studio's clock shows at an instant, read as if it were UTC. */
function wallClock(instant: number, zone: string): number {
  const at: Record<string, number> = {};
  for (const { type, value } of formatOf(zone).formatToParts(instant)) at[type] = Number(value);
  return Date.UTC(at.year!, at.month! - 1, at.day!, at.hour!, at.minute!, at.second!);
}

/** How far the studio's clock is ahead of UTC at an instant. */
const offsetAt = (instant: number, zone: string): number =>
  wallClock(instant, zone) - Math.floor(instant / 1000) * 1000;

/** The day of an instant in the studio. */
export const dayAt = (instant: number, zone: string): string =>
  new Date(wallClock(instant, zone)).toISOString().slice(0, 10);

/** A moment with its offset, to the second: '2026-05-01T10:15:00+01:00'. */
export function momentAt(instant: number, zone: string): string {
  const wall = wallClock(instant, zone);
  const minutes = Math.round((wall - Math.floor(instant / 1000) * 1000) / 60_000);
  const sign = minutes < 0 ? '-' : '+';
  const two = (n: number) => String(n).padStart(2, '0');
  const [hours, rest] = [Math.floor(Math.abs(minutes) / 60), Math.abs(minutes) % 60];
  return `${new Date(wall).toISOString().slice(0, 19)}${sign}${two(hours)}:${two(rest)}`;
}

export function dayAfter(day: string, days = 1): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

/**
 * The instant at which a day begins in the studio. Where the clock skips midnight the day begins
 * later; where midnight comes twice the first one counts.
 */
export function startOf(day: string, zone: string): number {
  const midnight = Date.parse(`${day}T00:00:00Z`);
  const offsets = [offsetAt(midnight - 86_400_000, zone), offsetAt(midnight + 86_400_000, zone)];
  const candidates = offsets.map((offset) => midnight - offset).sort((a, b) => a - b);
  return candidates.find((instant) => dayAt(instant, zone) === day) ?? candidates[1]!;
}

/** The first instant after a day. */
export const endOf = (day: string, zone: string): number => startOf(dayAfter(day), zone);

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** '3 May 2026', from a day or a moment. */
export function dayInWords(happenedAt: string): string {
  const [year, month, day] = happenedAt.slice(0, 10).split('-');
  return `${Number(day)} ${MONTHS[Number(month) - 1]} ${year}`;
}
