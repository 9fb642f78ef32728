/** Reading the tally's cells. */
import type { Ask } from '../../server/contract/plugin.ts';
import { marks } from '../../server/contract/reports/sql.ts';
import type { Asked } from './period.ts';

export { marks };

export interface Sums {
  key: string;
  currency: string;
  pieces: number;
  firsts: number;
  seconds: number;
  wasters: number;
  lost: number;
  unpriced: number;
}

export async function sums(
  ask: Ask,
  by: string,
  key: string,
  of: Pick<Asked, 'from' | 'to' | 'owners'>,
): Promise<Sums[]> {
  const found = await ask.query<Sums & { money: string }>(
    `SELECT ${key} AS key, CASE currency WHEN '' THEN ? ELSE currency END AS money,
       sum(pieces) AS pieces, sum(firsts) AS firsts, sum(seconds) AS seconds, sum(wasters) AS wasters,
       sum(lost) AS lost, sum(unpriced) AS unpriced
     FROM tally WHERE by = ? AND day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})
     GROUP BY 1, 2 ORDER BY 1, 2`,
    [ask.settings.currency, by, of.from ?? '', of.to ?? '9999', ...of.owners],
  );
  return found.map((row) => ({ ...row, currency: row.money }));
}

export const spoiled = (s: { seconds: number; wasters: number }): number => s.seconds + s.wasters;
export const share = (part: number, whole: number): number | null => (whole > 0 ? part / whole : null);

/** The counts of all rows together; money of several currencies is never added up. */
export function total(rows: readonly Sums[]): Omit<Sums, 'key' | 'currency' | 'lost'> {
  const add = (field: 'pieces' | 'firsts' | 'seconds' | 'wasters' | 'unpriced') =>
    rows.reduce((sum, row) => sum + row[field], 0);
  return {
    pieces: add('pieces'),
    firsts: add('firsts'),
    seconds: add('seconds'),
    wasters: add('wasters'),
    unpriced: add('unpriced'),
  };
}
export type Total = ReturnType<typeof total>;
