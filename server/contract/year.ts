/** The studio's year: it starts on any day, 'MM-DD', and is called by the year or years it lies in. Pure. */

export interface Year {
  /** First and last day. */
  readonly from: string;
  readonly to: string;
}

const DAY = 86_400_000;

export const shifted = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY).toISOString().slice(0, 10);

/** The first day of the year that starts in a calendar year. 29 February becomes 1 March where there is none. */
function startIn(year: number, yearStart: string): string {
  const [month, day] = yearStart.split('-').map(Number) as [number, number];
  const start = new Date(Date.UTC(2000, month - 1, day));
  start.setUTCFullYear(year, month - 1, day);
  return start.toISOString().slice(0, 10);
}

/** The year that holds the day, or one so many years before it. */
export function yearOf(day: string, yearStart: string, back = 0): Year {
  const calendar = Number(day.slice(0, 4));
  const first = (day < startIn(calendar, yearStart) ? calendar - 1 : calendar) - back;
  return { from: startIn(first, yearStart), to: shifted(startIn(first + 1, yearStart), -1) };
}

/** '2026', or '2025/26' where it lies in two calendar years. */
export function yearName({ from, to }: Year): string {
  const [first, last] = [from.slice(0, 4), to.slice(0, 4)];
  return first === last ? first : `${first}/${last.slice(2)}`;
}

const lastOfFebruary = (year: number): string => shifted(`${String(year).padStart(4, '0')}-03-01`, -1);

/** The same days a year earlier; where they end with February, so do those, whatever its length. */
export function spanBefore({ from, to }: Year): Year {
  const earlier = (day: string) => String(Number(day.slice(0, 4)) - 1).padStart(4, '0') + day.slice(4);
  const end = Number(to.slice(0, 4));
  return {
    from: from.endsWith('-02-29') ? shifted(lastOfFebruary(Number(from.slice(0, 4)) - 1), 1) : earlier(from),
    to: to === lastOfFebruary(end) ? lastOfFebruary(end - 1) : earlier(to),
  };
}

/** The last day of a year that starts on the day. */
export const endOfYearFrom = (day: string): string =>
  shifted(startIn(Number(day.slice(0, 4)) + 1, day.slice(5)), -1);

/** The first day of a year that ends on the day. */
export function startOfYearTo(day: string): string {
  const next = shifted(day, 1);
  return startIn(Number(next.slice(0, 4)) - 1, next.slice(5));
}
