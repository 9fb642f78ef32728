/**
 * Reading the cells month by month. What a month comes to is kept until a cell of that month changes,
 * so that a new grade costs the reading of its own month and not of all the years.
 */
import type { Ask } from '../../server/contract/plugin.ts';
import { marks } from '../../server/contract/reports/sql.ts';
import { endOfMonth } from '../../server/contract/reports/whole-months.ts';
import type { Asked } from './asked.ts';

export type Params = (string | number | null)[];

/** Which cells: of one kind, perhaps of one key only, or of all keys that begin alike. */
export interface Wanted {
  readonly by: string;
  readonly key?: string;
  readonly start?: string;
  /** Counted by bisque firing: a month then holds ware that was glaze fired in others. */
  readonly bisque?: boolean;
}

interface Month {
  readonly month: string;
  readonly mark: number;
  /** Days that do not count within it; undefined where all do. */
  readonly from?: string;
  readonly to?: string;
}

async function monthsOf(ask: Ask, of: Asked, bisque: boolean): Promise<Month[]> {
  const { from, to } = of;
  const all = await ask.query<{ month: string; mark: number }>(
    'SELECT month, mark FROM months WHERE month >= ? AND month <= ? ORDER BY month',
    [bisque ? '' : (from ?? '').slice(0, 7), to?.slice(0, 7) ?? '9999'],
  );
  if (bisque) return all.map((it) => ({ ...it, ...(from ? { from } : {}), ...(to ? { to } : {}) }));
  return all.map((it) => ({
    ...it,
    ...(from?.startsWith(it.month) && !from.endsWith('-01') ? { from } : {}),
    ...(to?.startsWith(it.month) && to !== endOfMonth(it.month) ? { to } : {}),
  }));
}

const isGrade = (outcome: string): boolean => outcome === 'seconds' || outcome === 'wasters';

interface Sql {
  readonly sql: string;
  readonly params: Params;
}

/** What a month is read from. */
export interface Cells extends Sql {
  /** `firing, load`: all inspected pieces of each firing, whatever they were. */
  readonly loads: Sql;
}

/** `month, key, firing, day, n, y, mended`: pieces and affected of each group and firing in some months. */
function cellsSql(of: Asked, wanted: Wanted, months: readonly Month[]): Cells {
  const { from = '', to = '9999' } = months[0]!;
  const span = [
    `month IN (${marks(months.length)})`,
    'day >= ? AND day <= ?',
    `owner IN (${marks(of.owners.length)})`,
    ...(of.firing === 'first' ? ["turn = 'first'"] : []),
  ].join(' AND ');
  const days: Params = [...months.map(({ month }) => month), from, to, ...of.owners];
  const loads = {
    sql: `SELECT firing, sum(pieces) AS load FROM rates WHERE by = ? AND ${span} GROUP BY month, key, firing`,
    params: [wanted.bisque ? 'all-bisque' : 'all', ...days],
  };
  const where = [
    span,
    ...(wanted.key !== undefined ? ['key = ?'] : []),
    ...(wanted.start !== undefined ? ['key >= ? AND key < ?'] : []),
  ].join(' AND ');
  const params: Params = [
    ...days,
    ...(wanted.key !== undefined ? [wanted.key] : []),
    ...(wanted.start !== undefined ? [wanted.start, `${wanted.start}\u{10ffff}`] : []),
  ];
  const counted = (sum: string) =>
    `SELECT month, key, firing, min(day) AS day, sum(pieces) AS n, ${sum} AS y, sum(mended) AS mended
     FROM rates WHERE by = ? AND ${where} GROUP BY month, key, firing`;
  if (isGrade(of.outcome))
    return { sql: counted(`sum(${of.outcome})`), params: [wanted.by, ...params], loads };
  return {
    loads,
    sql: `SELECT c.month, c.key, c.firing, c.day, c.n, coalesce(f.y, 0) AS y, c.mended FROM (${counted('0')}) c
      LEFT JOIN (SELECT key, firing, sum(pieces) AS y FROM flaws WHERE by = ? AND fault = ? AND ${where}
        GROUP BY month, key, firing) f ON f.key = c.key AND f.firing = c.firing`,
    params: [wanted.by, ...params, wanted.by, of.outcome, ...params],
  };
}

export type Load<T> = (cells: Cells) => Promise<(T & { month: string })[]>;

/**
 * What `load` finds in each month, one list after another. Months that are not kept are read with one
 * query where they are whole, and one for each end of the time that is not.
 */
export async function byMonth<T>(
  ask: Ask,
  of: Asked,
  what: string,
  wanted: Wanted,
  load: Load<T>,
): Promise<T[][]> {
  const missing = new Map<string, { months: Month[]; found?: Promise<Map<string, T[]>> }>();
  const reading = (month: Month): Promise<T[]> => {
    const days = `${month.from ?? ''} ${month.to ?? ''}`;
    const group = missing.get(days) ?? { months: [] };
    missing.set(days, group);
    group.months.push(month);
    // All months that are missing have been named by the time this goes on.
    return Promise.resolve().then(async () => {
      group.found ??= load(cellsSql(of, wanted, group.months)).then(groupedByMonth);
      return (await group.found).get(month.month) ?? [];
    });
  };
  const { outcome, owners, firing } = of;
  const months = await monthsOf(ask, of, wanted.bisque === true);
  return Promise.all(
    months.map((month) =>
      ask.kept(JSON.stringify([what, wanted, outcome, owners, firing, month]), () => reading(month), []),
    ),
  );
}

function groupedByMonth<T extends { month: string }>(rows: readonly T[]): Map<string, T[]> {
  const found = new Map<string, T[]>();
  for (const row of rows) {
    const its = found.get(row.month);
    if (its) its.push(row);
    else found.set(row.month, [row]);
  }
  return found;
}
