/** The odds of a glaze with clay and both schedules allowed for: in strata, and in one penalised regression. */

import { aliased, type Factor, refusalOf } from '../../server/contract/statistics/aliased.ts';
import { clusterBootstrap } from '../../server/contract/statistics/bootstrap.ts';
import { firth, profileLimits } from '../../server/contract/statistics/firth.ts';
import type { Fourfold } from '../../server/contract/statistics/fisher.ts';
import type { Interval } from '../../server/contract/statistics/interval.ts';
import type { Cell } from '../../server/contract/statistics/logistic.ts';
import { rank } from '../../server/contract/statistics/matrix.ts';
import type { Names } from './kinds.ts';
import { firingRows, gathered, type Share } from './strata.ts';

/** Log of the Mantel-Haenszel odds ratio from four counts of each stratum in turn; NaN where nothing is compared. */
function logOdds(sums: readonly number[]): number {
  let [up, down] = [0, 0];
  for (let at = 0; at < sums.length; at += 4) {
    const [a, b, c, d] = [sums[at]!, sums[at + 1]!, sums[at + 2]!, sums[at + 3]!];
    const n = a + b + c + d;
    if (n === 0) continue;
    up += (a * d) / n;
    down += (b * c) / n;
  }
  return up === 0 && down === 0 ? Number.NaN : Math.log(up / down);
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

export interface Limits {
  readonly low: number | null;
  readonly high: number | null;
}

/** Limits of the common odds ratio over draws of whole firings; null on a side without one. */
export function drawnOdds(
  shares: readonly Share[],
  strata: readonly string[],
  by: (share: Share) => string,
): Limits | undefined {
  const limits = clusterBootstrap(firingRows(shares, strata, by), logOdds);
  return limits && { low: finite(Math.exp(limits.low)), high: finite(Math.exp(limits.high)) };
}

interface Level {
  readonly name: string;
  readonly column: readonly number[];
}

function levelsOf(
  cells: readonly { share: Share }[],
  field: 'clay' | 'bisque' | 'schedule',
  name: (id: string) => string,
): Level[] {
  const ids = [...new Set(cells.map(({ share }) => share[field]))];
  return ids.map((id) => ({
    name: id === '' ? 'not noted' : name(id),
    column: cells.map(({ share }) => (share[field] === id ? 1 : 0)),
  }));
}

/** Columns that say something new, in order: what earlier ones already say is dropped. */
function telling(columns: readonly (readonly number[])[], start: readonly (readonly number[])[]) {
  const kept = [...start];
  for (const column of columns) if (rank([...kept, column]) > kept.length) kept.push(column);
  return kept.slice(start.length);
}

export type Adjusted = ({ readonly odds: number } & Interval) | { readonly refused: string };

/** Firth's regression on the glaze, the clay and both schedules; refused where the glaze cannot be told from one of them. */
export function regressed(shares: readonly Share[], glaze: string, names: Names): Adjusted | undefined {
  const split = ({ clay, bisque, schedule }: Share) => [clay, bisque, schedule].join('|');
  const cells = [...gathered(shares, split)].flatMap(([key, table]) => {
    const [clay, bisque, schedule] = key.split('|') as [string, string, string];
    const share = { ...table, clay, bisque, schedule, firing: '' };
    return cellsOf(share, table);
  });
  if (cells.length < 2) return undefined;
  const glazed = cells.map((cell) => cell.glazed);
  const one = cells.map(() => 1);
  const factors = [
    { name: 'clay', levels: levelsOf(cells, 'clay', names.clay_names) },
    { name: 'bisque schedule', levels: levelsOf(cells, 'bisque', names.schedule_names) },
    { name: 'glaze schedule', levels: levelsOf(cells, 'schedule', names.schedule_names) },
  ].filter(({ levels }) => levels.length > 1);
  const mine: Factor = { name: glaze, columns: [glazed] };
  for (const { name, column } of factors.flatMap(({ levels }) => levels)) {
    const pair = [mine, { name, columns: [column] }];
    if (aliased(pair).length === 2) return { refused: refusalOf(pair)! };
  }
  const others = telling(
    factors.flatMap(({ levels }) => levels.slice(1).map(({ column }) => column)),
    [one],
  );
  if (rank([one, ...others, glazed]) < 2 + others.length)
    return {
      refused: refusalOf([
        mine,
        ...factors.map(({ name, levels }) => ({ name, columns: levels.slice(1).map((l) => l.column) })),
      ])!,
    };
  return fitted(
    cells.map(({ affected, pieces }, n) => ({
      x: [1, glazed[n]!, ...others.map((column) => column[n]!)],
      affected,
      pieces,
    })),
  );
}

function cellsOf(share: Share, { a, b, c, d }: Fourfold) {
  const both = [
    { share, glazed: 1, affected: a, pieces: a + b },
    { share, glazed: 0, affected: c, pieces: c + d },
  ];
  return both.filter(({ pieces }) => pieces > 0);
}

function fitted(cells: readonly Cell[]): Adjusted | undefined {
  const fit = firth(cells);
  if (!fit) return undefined;
  const { low, high } = profileLimits(cells, fit, 1);
  return { odds: Math.exp(fit.coefficients[1]!), low: Math.exp(low), high: Math.exp(high) };
}
