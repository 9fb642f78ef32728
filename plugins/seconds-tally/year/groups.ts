/** Reading the sums by firing: what came out, by group, in a span of days. */
import type { Ask } from '../../../server/contract/plugin.ts';
import { marks } from '../../../server/contract/reports/sql.ts';
import type { Clustered } from '../../../server/contract/statistics/cluster.ts';
import type { Group } from '../../../server/contract/statistics/groups.ts';
import type { Year } from '../../../server/contract/year.ts';

export type By = 'fault' | 'out' | 'glaze' | 'clay' | 'bisque' | 'schedule';

const WHERE = (owners: readonly string[]): string =>
  `by = ? AND day >= ? AND day <= ? AND owner IN (${marks(owners.length)})`;

/**
 * Groups of one kind with their firings. Of faults, the pieces are all that came out and the
 * affected those that had the fault.
 */
export async function groupsIn(
  ask: Ask,
  by: By,
  { from, to }: Year,
  owners: readonly string[],
): Promise<Group[]> {
  const span = [from, to, ...owners];
  const params = [by, ...span, 'out', ...span];
  const mine = `SELECT key, firing, sum(pieces) AS n, sum(spoiled) AS y FROM fired WHERE ${WHERE(owners)} GROUP BY key, firing`;
  const loads = `SELECT firing, sum(pieces) AS load FROM fired WHERE ${WHERE(owners)} GROUP BY firing`;
  if (by !== 'fault')
    return ask.query<Group>(
      `SELECT key, count(*) AS firings, sum(n) AS pieces, sum(y) AS affected, sum(n * n) AS squares,
         sum(1.0 * y * y / n) AS spread, sum(n * load) AS alongside
       FROM (${mine}) JOIN (${loads}) USING (firing) GROUP BY key ORDER BY key`,
      params,
    );
  // Every firing counts for every fault, those that it did not come out of too.
  return ask.query<Group>(
    `WITH f AS (${mine}), a AS (${loads}),
       w AS (SELECT count(*) AS firings, sum(load) AS pieces, sum(load * load) AS squares FROM a)
     SELECT key, w.firings, w.pieces, sum(min(f.n, a.load)) AS affected, w.squares,
       sum(1.0 * min(f.n, a.load) * min(f.n, a.load) / a.load) AS spread, w.squares AS alongside
     FROM f JOIN a USING (firing), w GROUP BY key ORDER BY key`,
    params,
  );
}

/** The firings' sums of a group that is not there: a fault that was not found. */
export const noneOf = (group: Clustered): Clustered => ({ ...group, affected: 0, spread: 0 });
