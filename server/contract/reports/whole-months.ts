/** A time as the whole months in it and the days left over at its ends. */
export interface Spans {
  /** First and last whole month, 'YYYY-MM'. */
  readonly months?: readonly [first: string, last: string];
  /** First and last day of each stretch that is no whole month. */
  readonly days: readonly (readonly [from: string, to: string])[];
}

const START = '0000-01';
const END = '9999-12';

const monthOf = (day: string): string => day.slice(0, 7);

function moved(month: string, by: number): string {
  const [year, number] = month.split('-').map(Number) as [number, number];
  const months = year * 12 + number - 1 + by;
  return `${String(Math.floor(months / 12)).padStart(4, '0')}-${String((months % 12) + 1).padStart(2, '0')}`;
}

/** The last day of a month. */
export function endOfMonth(month: string): string {
  const [year, number] = month.split('-').map(Number) as [number, number];
  return `${month}-${String(new Date(Date.UTC(year, number, 0)).getUTCDate()).padStart(2, '0')}`;
}

/** Open ends reach as far as there are days. */
export function spansOf(from: string | undefined, to: string | undefined): Spans {
  const begins = from === undefined || from.endsWith('-01');
  const ends = to === undefined || to === endOfMonth(monthOf(to));
  const first = from === undefined ? START : begins ? monthOf(from) : moved(monthOf(from), 1);
  const last = to === undefined ? END : ends ? monthOf(to) : moved(monthOf(to), -1);
  if (first > last) return { days: [[from ?? '', to ?? '9999']] };
  return {
    months: [first, last],
    days: [
      ...(begins ? [] : [[from!, endOfMonth(monthOf(from!))] as const]),
      ...(ends ? [] : [[`${monthOf(to!)}-01`, to!] as const]),
    ],
  };
}
