/**
 * Does a fault still go with a glaze, clay or schedule when the others of these are allowed for? Within
 * strata of the other three, with limits over draws of whole firings.
 */
import type { Ask } from '../../../server/contract/plugin.ts';
import { mantelHaenszel } from '../../../server/contract/statistics/mantel-haenszel.ts';
import { drawnOdds } from '../adjusted.ts';
import type { Asked } from '../asked.ts';
import { gathered, type Share, sharesOf } from '../strata.ts';
import { type Fired, firings } from '../sums.ts';

export type Allowed =
  /** It holds with the others allowed for; or not; or there is nothing to compare it with. */
  'holds' | 'not' | 'inseparable';

export const FACTORS = ['glaze', 'clay', 'bisque-schedule', 'schedule'] as const;
export type Factor = (typeof FACTORS)[number];

/** Position in the key of a glaze's stratum: glaze|clay|bisque schedule|glaze schedule. */
const PLACE: Readonly<Record<Factor, number>> = { glaze: 0, clay: 1, 'bisque-schedule': 2, schedule: 3 };

/**
 * One firing's pieces with and without a clay or schedule, within each glaze and the other two. A piece
 * of two glazes counts within both; that is no harm to limits that draw whole firings.
 */
function shares(all: readonly Fired[], factor: Exclude<Factor, 'glaze'>, level: string): Share[] {
  const found = new Map<
    string,
    { firing: string; stratum: string; a: number; b: number; c: number; d: number }
  >();
  for (const { key, firing, n, y } of all) {
    const parts = key.split('|');
    const mine = parts[PLACE[factor]] === level;
    const stratum = parts.filter((_, at) => at !== PLACE[factor]).join('|');
    const at = `${firing} ${stratum}`;
    const row = found.get(at) ?? { firing, stratum, a: 0, b: 0, c: 0, d: 0 };
    found.set(at, row);
    row[mine ? 'a' : 'c'] += y;
    row[mine ? 'b' : 'd'] += n - y;
  }
  return [...found.values()].map(({ stratum, ...row }) => ({
    ...row,
    clay: stratum,
    bisque: '',
    schedule: '',
  }));
}

/** Under this the Mantel-Haenszel test says that it holds where the odds have no limit, for nothing else had the fault. */
const CHANCE = 0.05;

function judged(all: readonly Share[]): Allowed {
  const by = (share: Share) => `${share.clay}|${share.bisque}|${share.schedule}`;
  const strata = gathered(all, by);
  const { informative, oddsRatio, low, p = 1 } = mantelHaenszel([...strata.values()]);
  if (oddsRatio === undefined || informative === 0) return 'inseparable';
  if (oddsRatio === Number.POSITIVE_INFINITY) return p < CHANCE ? 'holds' : 'not';
  const drawn = drawnOdds(all, [...strata.keys()], by);
  // The wider limit counts: few firings drawn again and again look more alike than they are.
  return Math.min(low ?? 0, drawn?.low ?? Number.POSITIVE_INFINITY) > 1 ? 'holds' : 'not';
}

/** Asks the record once for all clays and schedules that are looked into. */
export function allowingFor(ask: Ask, of: Asked): (factor: Factor, level: string) => Promise<Allowed> {
  let cells: Promise<Fired[]> | undefined;
  const all = () => {
    cells ??= firings(ask, of, { by: 'glaze-stratum' });
    return cells;
  };
  return async (factor, level) =>
    judged(factor === 'glaze' ? await sharesOf(ask, of, level) : shares(await all(), factor, level));
}
