/** Named spans of days. Pure: today is given. */

export interface Span {
  readonly from?: string;
  readonly to?: string;
}

const two = (n: number): string => String(n).padStart(2, '0');
/** Days of a month, 1 to 12. */
const daysIn = (year: number, month: number): number => new Date(Date.UTC(year, month, 0)).getUTCDate();

function monthSpan(year: number, month: number): Span {
  return { from: `${year}-${two(month)}-01`, to: `${year}-${two(month)}-${two(daysIn(year, month))}` };
}

/** The day before, by the calendar. */
export function dayBefore(day: string): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) - 86_400_000).toISOString().slice(0, 10);
}

/** The studio's year that holds the day; it starts on `yearStart`, 'MM-DD'. */
function yearSpan(day: string, yearStart: string, back: number): Span {
  const year = Number(day.slice(0, 4)) - (day.slice(5) < yearStart ? 1 : 0) - back;
  return { from: `${year}-${yearStart}`, to: dayBefore(`${year + 1}-${yearStart}`) };
}

/** 12 whole months that end with the present one. */
function twelveMonths(year: number, month: number): Span {
  const start = month === 12 ? `${year}-01-01` : `${year - 1}-${two(month + 1)}-01`;
  return { from: start, to: monthSpan(year, month).to };
}

export const PERIODS = ['all', 'month', 'lastMonth', 'year', 'lastYear', 'twelve'] as const;
export type Period = (typeof PERIODS)[number];

export function spanOf(period: Period, day: string, yearStart = '01-01'): Span {
  const year = Number(day.slice(0, 4));
  const month = Number(day.slice(5, 7));
  switch (period) {
    case 'all':
      return {};
    case 'month':
      return monthSpan(year, month);
    case 'lastMonth':
      return month === 1 ? monthSpan(year - 1, 12) : monthSpan(year, month - 1);
    case 'year':
      return yearSpan(day, yearStart, 0);
    case 'lastYear':
      return yearSpan(day, yearStart, 1);
    case 'twelve':
      return twelveMonths(year, month);
  }
}

/** The named period that a span is; undefined when it is other days. */
export const periodOf = (span: Span, day: string, yearStart?: string): Period | undefined =>
  PERIODS.find((period) => {
    const named = spanOf(period, day, yearStart);
    return named.from === span.from && named.to === span.to;
  });
