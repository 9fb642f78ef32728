/** A rate this year beside last year's: their difference, and whether it is more than the luck of a few firings. */
import { percent } from '../../../server/contract/reports/words.ts';
import { benjaminiHochberg } from '../../../server/contract/statistics/benjamini-hochberg.ts';
import {
  type Clustered,
  clusterInterval,
  clusterTest,
  type Dispersion,
  differenceOf,
  FEW_FIRINGS,
  pooledDispersion,
} from '../../../server/contract/statistics/cluster.ts';
import { newcombe } from '../../../server/contract/statistics/newcombe.ts';
import { points } from './wording.ts';

/** One chance in twenty of calling a difference where there is none. */
const FALSE_ALARMS = 0.05;

export interface Pair {
  readonly now: Clustered;
  readonly before: Clustered;
}

/** 'one-of-many': beyond chance by itself, and no more so once so many are compared. */
export type Finding = 'more' | 'fewer' | 'chance' | 'one-of-many' | 'few';

export interface Compared extends Pair {
  readonly rate: number;
  readonly rateBefore: number;
  readonly difference: number;
  /** 95 %: from both years' intervals with pieces of one firing taken as alike, where each has two firings. */
  readonly low: number;
  readonly high: number;
  readonly p: number | null;
}

/** `dispersion`: how alike pieces of one firing are, from all groups of the kind in both years. */
export function compare(
  { now, before }: Pair,
  dispersion: Dispersion = pooledDispersion([now, before]),
): Compared {
  const [late, early] = [clusterInterval(now, dispersion), clusterInterval(before, dispersion)];
  const rate = now.affected / now.pieces;
  const rateBefore = before.affected / before.pieces;
  const limits =
    late && early ? differenceOf({ rate, ...late }, { rate: rateBefore, ...early }) : newcombe(now, before);
  const test = late && early && clusterTest({ group: now, rest: before, shared: 0 }, dispersion);
  return {
    now,
    before,
    rate,
    rateBefore,
    difference: rate - rateBefore,
    low: limits.low,
    high: limits.high,
    p: test ?? null,
  };
}

/** Nothing is called different on the word of a few firings. */
const isFew = ({ now, before }: Pair): boolean => now.firings < FEW_FIRINGS || before.firings < FEW_FIRINGS;

/** Of one comparison by itself: its interval says. */
export function findingOf(it: Compared): Finding {
  if (isFew(it)) return 'few';
  if (it.low > 0) return 'more';
  return it.high < 0 ? 'fewer' : 'chance';
}

/** Of many at once: of those called different at most one in twenty is expected to be so by chance. */
export function findingsOf(all: readonly Compared[]): { finding: Finding; q: number | null }[] {
  const q = benjaminiHochberg(all.map((it) => (isFew(it) ? null : it.p)));
  return all.map((it, n) => {
    const alone = findingOf(it);
    const value = q[n] ?? null;
    if (alone === 'few' || alone === 'chance') return { finding: alone, q: value };
    return { finding: value !== null && value < FALSE_ALARMS ? alone : 'one-of-many', q: value };
  });
}

const VERDICTS: Readonly<Record<Finding, string>> = {
  more: 'more than last year, beyond chance',
  fewer: 'fewer than last year, beyond chance',
  chance: 'it can’t be told apart from chance',
  'one-of-many': 'among so many comparisons one such is to be expected by chance',
  few: 'from few firings, so it can’t be told apart from chance',
};

/** '31 of 155 (20 %), 15 of 125 (12 %) the year before; a difference between +1 and +15 in a hundred is believable: …'. */
export function comparedSaid(it: Compared, finding: Finding): string {
  const { now, before } = it;
  return (
    `${now.affected} of ${now.pieces} (${percent(it.rate)} %), ${before.affected} of ${before.pieces} (${percent(it.rateBefore)} %) the year before; ` +
    `a difference between ${points(it.low)} and ${points(it.high)} in a hundred is believable: ${VERDICTS[finding]}`
  );
}
