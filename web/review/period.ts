/** Named spans of days. Pure: today is given. */
import { shifted, yearOf } from '../../server/contract/year.ts';

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
export const dayBefore = (day: string): string => shifted(day, -1);

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
      return yearOf(day, yearStart);
    case 'lastYear':
      return yearOf(day, yearStart, 1);
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
