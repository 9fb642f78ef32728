/** Reading the cells: sums by group, made over firings so that the firing can be the cluster. */
import type { Ask } from '../../server/contract/plugin.ts';
import { marks } from '../../server/contract/reports/sql.ts';
import type { Clustered } from '../../server/contract/statistics/cluster.ts';
import type { Group } from '../../server/contract/statistics/groups.ts';
import type { Asked } from './asked.ts';
import type { Names, NameTable } from './kinds.ts';

type Params = (string | number | null)[];

const span = (of: Asked) => ({
  sql: `by = ? AND day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})${of.firing === 'first' ? " AND turn = 'first'" : ''}`,
  params: (by: string): Params => [by, of.from ?? '', of.to ?? '9999', ...of.owners],
});

const isGrade = (outcome: string): boolean => outcome === 'seconds' || outcome === 'wasters';

/** Keys to keep: one, or all that start alike. */
export interface Only {
  readonly key?: string;
  readonly start?: string;
}

function narrowed({ key, start }: Only): { sql: string; params: Params } {
  if (key !== undefined) return { sql: ' AND key = ?', params: [key] };
  if (start === undefined) return { sql: '', params: [] };
  return { sql: ' AND key >= ? AND key < ?', params: [start, `${start}\u{10ffff}`] };
}

/** `key, firing, day, n, y` of one kind: pieces and affected by group and firing. */
export function byFiring(of: Asked, by: string, only: Only = {}): { sql: string; params: Params } {
  const { sql, params } = span(of);
  const keys = narrowed(only);
  const here = [...params(by), ...keys.params];
  const counted = (sum: string) =>
    `SELECT key, firing, min(day) AS day, sum(pieces) AS n, ${sum} AS y FROM rates WHERE ${sql}${keys.sql} GROUP BY key, firing`;
  if (isGrade(of.outcome)) return { sql: counted(`sum(${of.outcome})`), params: here };
  return {
    sql: `SELECT c.key, c.firing, c.day, c.n, coalesce(f.y, 0) AS y FROM (${counted('0')}) c
      LEFT JOIN (SELECT key, firing, sum(pieces) AS y FROM flaws WHERE fault = ? AND ${sql}${keys.sql} GROUP BY key, firing) f
      ON f.key = c.key AND f.firing = c.firing`,
    params: [...here, of.outcome, ...here],
  };
}

const OVER =
  'count(*) AS firings, sum(n) AS pieces, sum(y) AS affected, sum(n * n) AS squares, sum(1.0 * y * y / n) AS spread';

/** All inspected pieces together; `bisque` counts by bisque firing. */
export async function whole(ask: Ask, of: Asked, bisque: boolean): Promise<Clustered> {
  const { sql, params } = byFiring(of, bisque ? 'all-bisque' : 'all');
  const [found] = await ask.query<{ [K in keyof Clustered]: number | null }>(
    `SELECT ${OVER} FROM (${sql})`,
    params,
  );
  return {
    firings: found?.firings ?? 0,
    pieces: found?.pieces ?? 0,
    affected: found?.affected ?? 0,
    squares: found?.squares ?? 0,
    spread: found?.spread ?? 0,
  };
}

export async function sums(ask: Ask, of: Asked, by: string, bisque: boolean): Promise<Group[]> {
  const here = byFiring(of, by);
  const { sql, params } = span(of);
  return ask.query<Group>(
    `SELECT h.key, ${OVER}, sum(n * a.load) AS alongside FROM (${here.sql}) h
     JOIN (SELECT firing, sum(pieces) AS load FROM rates WHERE ${sql} GROUP BY firing) a ON a.firing = h.firing
     GROUP BY h.key ORDER BY h.key`,
    [...here.params, ...params(bisque ? 'all-bisque' : 'all')],
  );
}

/** Pieces fired and not inspected yet, and pieces mended before they were graded. */
export async function leftOut(ask: Ask, of: Asked): Promise<{ waiting: number; mended: number }> {
  const { sql, params } = span(of);
  const [waiting, mended] = await Promise.all([
    ask.query<{ n: number | null }>(
      `SELECT sum(pieces) AS n FROM waiting WHERE day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})`,
      params('').slice(1),
    ),
    ask.query<{ n: number | null }>(`SELECT sum(mended) AS n FROM rates WHERE ${sql}`, params('all')),
  ]);
  return { waiting: waiting[0]?.n ?? 0, mended: mended[0]?.n ?? 0 };
}

const TABLES: readonly NameTable[] = ['glaze_names', 'clay_names', 'schedule_names', 'kiln_names'];

/** Names by handle; a handle stands for itself where none is known. */
export async function namesOf(ask: Ask): Promise<Names> {
  const lists = await Promise.all(
    TABLES.map((table) => ask.query<{ id: string; name: string }>(`SELECT id, name FROM ${table}`)),
  );
  const look = (n: number) => {
    const names = new Map(lists[n]!.map((row) => [row.id, row.name]));
    return (id: string) => names.get(id) ?? id;
  };
  return { glaze_names: look(0), clay_names: look(1), schedule_names: look(2), kiln_names: look(3) };
}
