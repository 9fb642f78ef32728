/** Which days the year has, and which of the year before stand beside them. */
import {
  endOfYearFrom,
  shifted,
  spanBefore,
  startOfYearTo,
  type Year,
  yearName,
  yearOf,
} from '../../../server/contract/year.ts';

export interface YearSpan extends Year {
  readonly name: string;
  /** The last day that can be known: today, where the year is not over. */
  readonly until: string;
  readonly over: boolean;
  /** A whole year of the studio's. */
  readonly whole: boolean;
  /** The same stretch a year earlier. */
  readonly before: Year;
}

interface Asked {
  readonly from?: string;
  readonly to?: string;
}

/** Both days, or the year that starts or ends on the one that is given; neither: the studio's present year. */
function daysOf({ from, to }: Asked, today: string, yearStart: string): Year {
  if (from && to) return { from, to };
  if (from) return { from, to: endOfYearFrom(from) };
  if (to) return { from: startOfYearTo(to), to };
  return yearOf(today, yearStart);
}

/** A span of more than a year stands beside one that ends before it begins. */
function earlier(days: Year): Year {
  let before = spanBefore(days);
  while (before.to >= days.from) before = spanBefore(before);
  return before;
}

export function yearSpan(asked: Asked, today: string, yearStart: string): YearSpan {
  const days = daysOf(asked, today, yearStart);
  const own = yearOf(days.from, yearStart);
  const whole = own.from === days.from && own.to === days.to;
  const over = days.to < today;
  const until = over || days.from > today ? days.to : today;
  const before = earlier({ from: days.from, to: until });
  const last = yearOf(days.from, yearStart, 1);
  return {
    ...days,
    name: whole ? yearName(days) : '',
    until,
    over,
    whole,
    before: whole ? { from: last.from, to: until === days.to ? last.to : before.to } : before,
  };
}

/** The studio's years from the one that holds the first day to the present one, newest first. */
export function yearsSince(first: string | undefined, today: string, yearStart: string): Year[] {
  const years = [yearOf(today, yearStart)];
  while (first !== undefined && years.length < 60 && years.at(-1)!.from > first)
    years.push(yearOf(shifted(years.at(-1)!.from, -1), yearStart));
  return years;
}
