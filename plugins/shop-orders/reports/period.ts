/** A period, and the sums over it: whole months from the sums by month, the days at its ends from those by day. */
import { z } from 'zod';
import type { Ask } from '../../../server/contract/plugin.ts';
import { dayAfter } from '../days.ts';

export const periodInput = z.strictObject({ from: z.iso.date().optional(), to: z.iso.date().optional() });
export type Period = z.infer<typeof periodInput>;

const EARLIEST = '0000-01-01';
const LATEST = '9999-12-31';

interface Parts {
  /** First and last whole month; undefined when there is none. */
  readonly months?: readonly [string, string];
  readonly days: readonly (readonly [string, string])[];
}

const monthOf = (day: string): string => day.slice(0, 7);
const firstOf = (month: string): string => `${month}-01`;

function monthAfter(month: string): string {
  const [year, of] = month.split('-').map(Number) as [number, number];
  return of === 12
    ? `${String(year + 1).padStart(4, '0')}-01`
    : `${month.slice(0, 5)}${String(of + 1).padStart(2, '0')}`;
}

function monthBefore(month: string): string {
  return monthOf(dayAfter(firstOf(month), -1));
}

/** The whole months of a period, and the days before and after them. */
export function partsOf({ from, to }: Period): Parts {
  const first =
    from === undefined ? '0000-01' : from.endsWith('-01') ? monthOf(from) : monthAfter(monthOf(from));
  const last =
    to === undefined ? '9999-12' : dayAfter(to, 1).endsWith('-01') ? monthOf(to) : monthBefore(monthOf(to));
  if (first > last) return { days: [[from ?? EARLIEST, to ?? LATEST]] };
  const days: [string, string][] = [];
  if (from !== undefined && from < firstOf(first)) days.push([from, dayAfter(firstOf(first), -1)]);
  if (to !== undefined && to >= firstOf(monthAfter(last))) days.push([firstOf(monthAfter(last)), to]);
  return { months: [first, last], days };
}

/**
 * Rows summed over a period.
 * @param table without '_by_month'
 * @param keys columns to sum by, besides those that are summed; all of our own, never of a user's
 */
export function summed<R>(
  ask: Ask,
  table: string,
  keys: readonly string[],
  sums: readonly string[],
  period: Period,
): Promise<R[]> {
  const { months, days } = partsOf(period);
  const columns = [...keys, ...sums].join(', ');
  const parts: string[] = [];
  const params: string[] = [];
  if (months) {
    parts.push(`SELECT ${columns} FROM ${table}_by_month WHERE month BETWEEN ? AND ?`);
    params.push(...months);
  }
  for (const range of days) {
    parts.push(`SELECT ${columns} FROM ${table}_by_day WHERE day BETWEEN ? AND ?`);
    params.push(...range);
  }
  const total = sums.map((sum) => `sum(${sum}) AS ${sum}`).join(', ');
  return ask.query<R>(
    `SELECT ${keys.join(', ')}, ${total} FROM (${parts.join(' UNION ALL ')}) GROUP BY ${keys.join(', ')}`,
    params,
  );
}

/** SQL and parameters for a column of days. */
export const within = (column: string, { from, to }: Period) => ({
  where: `${column} BETWEEN ? AND ?`,
  params: [from ?? EARLIEST, to ?? LATEST],
});
