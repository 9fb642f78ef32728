/** From the cells to sums by group, made over firings so that the firing can be the cluster. */
import type { Ask } from '../../server/contract/plugin.ts';
import { namesIn } from '../../server/contract/reports/names.ts';
import { marks } from '../../server/contract/reports/sql.ts';
import type { Clustered } from '../../server/contract/statistics/cluster.ts';
import type { Group } from '../../server/contract/statistics/groups.ts';
import type { Asked } from './asked.ts';
import { byMonth, type Wanted } from './by-month.ts';
import type { Names } from './kinds.ts';

/** One group in one firing. */
export interface Fired {
  readonly key: string;
  readonly firing: string;
  readonly day: string;
  readonly n: number;
  readonly y: number;
}

/** Firing by firing. */
export async function firings(ask: Ask, of: Asked, wanted: Wanted): Promise<Fired[]> {
  const months = await byMonth<Fired>(ask, of, 'firings', wanted, ({ sql, params }) =>
    ask.query(`SELECT month, key, firing, day, n, y FROM (${sql})`, params),
  );
  return months.flat();
}

const OVER =
  'count(*) AS firings, sum(n) AS pieces, sum(y) AS affected, sum(n * n) AS squares, sum(1.0 * y * y / n) AS spread';

export type Whole = Clustered & { readonly mended: number };

/** All inspected pieces together; `bisque` counts by bisque firing. */
export async function whole(ask: Ask, of: Asked, bisque: boolean): Promise<Whole> {
  const wanted = { by: bisque ? 'all-bisque' : 'all', key: '', bisque };
  const months = await byMonth<Whole>(ask, of, 'whole', wanted, ({ sql, params }) =>
    ask.query(`SELECT month, ${OVER}, sum(mended) AS mended FROM (${sql}) GROUP BY month`, params),
  );
  const sum = (field: keyof Whole) => months.flat().reduce((all, it) => all + it[field], 0);
  return {
    firings: sum('firings'),
    pieces: sum('pieces'),
    affected: sum('affected'),
    squares: sum('squares'),
    spread: sum('spread'),
    mended: sum('mended'),
  };
}

const NONE = { firings: 0, pieces: 0, affected: 0, squares: 0, spread: 0, alongside: 0 };

/** Every group of a kind; by key. */
export async function sums(ask: Ask, of: Asked, by: string, bisque: boolean): Promise<Group[]> {
  const months = await byMonth<Group>(ask, of, 'sums', { by, bisque }, ({ sql, params, loads }) =>
    ask.query(
      `SELECT month, key, ${OVER}, sum(n * load) AS alongside FROM (${sql}) JOIN (${loads.sql}) USING (firing)
       GROUP BY month, key`,
      [...params, ...loads.params],
    ),
  );
  const found = new Map<string, Group>();
  for (const part of months.flat()) {
    const before = found.get(part.key) ?? { ...NONE, key: part.key };
    found.set(part.key, {
      key: part.key,
      firings: before.firings + part.firings,
      pieces: before.pieces + part.pieces,
      affected: before.affected + part.affected,
      squares: before.squares + part.squares,
      spread: before.spread + part.spread,
      alongside: before.alongside + part.alongside,
    });
  }
  return [...found.values()].toSorted((x, y) => (x.key < y.key ? -1 : 1));
}

/** Pieces fired and not inspected yet. */
export async function waitingFor(ask: Ask, of: Asked): Promise<number> {
  const [found] = await ask.query<{ n: number | null }>(
    `SELECT sum(pieces) AS n FROM waiting WHERE day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})`,
    [of.from ?? '', of.to ?? '9999', ...of.owners],
  );
  return found?.n ?? 0;
}

/** Names by handle; a handle stands for itself where none is known. */
export async function namesOf(ask: Ask): Promise<Names> {
  const [glaze_names, clay_names, schedule_names, kiln_names] = await Promise.all([
    namesIn(ask, 'glaze_names'),
    namesIn(ask, 'clay_names'),
    namesIn(ask, 'schedule_names'),
    namesIn(ask, 'kiln_names'),
  ]);
  return { glaze_names, clay_names, schedule_names, kiln_names };
}
