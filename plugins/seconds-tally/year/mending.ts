/** Repairs of the year: how many were tried and worked, by fault and repair. */

import type { Ask } from '../../../server/contract/plugin.ts';
import { marks } from '../../../server/contract/reports/sql.ts';
import { between, capital, opened, percent, plural } from '../../../server/contract/reports/words.ts';
import { evenedOut } from '../../../server/contract/statistics/evened-out.ts';
import { wilson } from '../../../server/contract/statistics/wilson.ts';
import { FAULT_NOT_NOTED } from '../../../server/contract/studio/mended.ts';
import type { Year } from '../../../server/contract/year.ts';

interface Found {
  readonly fault: string;
  readonly repair: string;
  readonly tried: number;
  readonly worked: number;
  readonly waiting: number;
}

export interface MendedRow extends Omit<Found, 'waiting'> {
  readonly label: string;
  readonly rate: number;
  readonly low: number;
  readonly high: number;
  readonly even: number;
  readonly evenLow: number;
  readonly evenHigh: number;
}

export interface Mending {
  readonly tried: number;
  readonly worked: number;
  readonly waiting: number;
  /** The best first, evened out. */
  readonly rows: readonly MendedRow[];
}

const labelOf = ({ fault, repair }: Found): string =>
  `${capital(opened(repair))} for ${fault === FAULT_NOT_NOTED ? 'fault not noted' : opened(fault)}`;

export async function mending(ask: Ask, { from, to }: Year, owners: readonly string[]): Promise<Mending> {
  const found = await ask.query<Found>(
    `SELECT fault, repair, sum(tried) AS tried, sum(worked) AS worked, sum(waiting) AS waiting FROM mended
     WHERE day >= ? AND day <= ? AND owner IN (${marks(owners.length)})
     GROUP BY fault, repair ORDER BY fault, repair`,
    [from, to, ...owners],
  );
  const judged = found.filter(({ tried }) => tried > 0);
  const even = evenedOut(judged.map(({ worked, tried }) => ({ affected: worked, pieces: tried })));
  const add = (field: 'tried' | 'worked' | 'waiting') => found.reduce((sum, row) => sum + row[field], 0);
  return {
    tried: add('tried'),
    worked: add('worked'),
    waiting: add('waiting'),
    rows: judged
      .map(({ waiting: _, ...row }, n) => {
        const { mean, low: evenLow, high: evenHigh } = even[n]!;
        return {
          ...row,
          label: labelOf({ ...row, waiting: 0 }),
          rate: row.worked / row.tried,
          ...wilson({ affected: row.worked, pieces: row.tried }),
          even: mean,
          evenLow,
          evenHigh,
        };
      })
      .toSorted((x, y) => y.even - x.even || x.label.localeCompare(y.label)),
  };
}

/** How many worked, and which worked best. */
export function mendingSaid({ tried, worked, waiting, rows }: Mending): string {
  const later =
    waiting > 0 ? ` ${plural(waiting, 'mended piece is', 'mended pieces are')} not graded since.` : '';
  const [best] = rows;
  if (!best) return `No repair has been judged by a grade in this year.${later}`;
  const first = `${worked} of ${plural(tried, 'repair')} worked (${percent(worked / tried)} %).`;
  if (rows.length === 1) return `${first}${later}`;
  return `${first} Evened out, the best is: ${best.label.toLowerCase()} (${best.worked} of ${best.tried}; ${between(best)}).${later}`;
}
