/** From the sums of each group to its rate with all that is said about it, against all the rest. */
import { benjaminiHochberg } from './benjamini-hochberg.ts';
import {
  type Clustered,
  clusterInterval,
  clusterTest,
  type Dispersion,
  pooledDispersion,
} from './cluster.ts';
import { evenedOut } from './evened-out.ts';
import { fisher } from './fisher.ts';
import type { Interval } from './interval.ts';
import { wilson } from './wilson.ts';

export interface Group extends Clustered {
  readonly key: string;
  /** Σ over its firings of its pieces × all pieces of the firing. */
  readonly alongside: number;
}

export interface Reckoned {
  readonly key: string;
  readonly pieces: number;
  readonly firings: number;
  readonly affected: number;
  readonly rate: number;
  readonly low: number;
  readonly high: number;
  readonly clusterLow: number | null;
  readonly clusterHigh: number | null;
  readonly believable: Interval;
  readonly even: number;
  readonly evenLow: number;
  readonly evenHigh: number;
  /** Fisher's exact test against the rest: takes the pieces as independent. */
  readonly p: number | null;
  readonly q: number | null;
  /** The same question with pieces of one firing taken as alike. */
  readonly clusterP: number | null;
  readonly clusterQ: number | null;
  /** Its rate is the higher one. */
  readonly worse: boolean;
}

/** What is not in the group, with the pieces that the two share a firing with. */
function beside(all: Clustered, group: Group) {
  const rest: Clustered = {
    pieces: all.pieces - group.pieces,
    affected: all.affected - group.affected,
    firings: all.firings,
    squares: all.squares - 2 * group.alongside + group.squares,
    spread: 0,
  };
  return { group, rest, shared: group.alongside - group.squares };
}

function against(all: Clustered, group: Group, dispersion: Dispersion) {
  const it = beside(all, group);
  if (it.rest.pieces <= 0) return { p: null, clusterP: null, worse: false };
  const p = fisher({
    a: group.affected,
    b: group.pieces - group.affected,
    c: it.rest.affected,
    d: it.rest.pieces - it.rest.affected,
  }).p;
  const worse = group.affected / group.pieces > it.rest.affected / it.rest.pieces;
  const told = group.firings > 1;
  return { p, clusterP: told ? (clusterTest(it, dispersion) ?? null) : null, worse };
}

export function reckon(all: Clustered, groups: readonly Group[]): Reckoned[] {
  const dispersion = pooledDispersion(groups);
  const even = evenedOut(groups);
  const tests = groups.map((group) => against(all, group, dispersion));
  const q = benjaminiHochberg(tests.map((test) => test.p));
  const clusterQ = benjaminiHochberg(tests.map((test) => test.clusterP));
  return groups.map((group, n) => {
    const { key, pieces, firings, affected } = group;
    const plain = wilson(group);
    const cluster = clusterInterval(group, dispersion);
    const { mean, low, high } = even[n]!;
    return {
      key,
      pieces,
      firings,
      affected,
      rate: affected / pieces,
      low: plain.low,
      high: plain.high,
      clusterLow: cluster?.low ?? null,
      clusterHigh: cluster?.high ?? null,
      believable: cluster ?? plain,
      even: mean,
      evenLow: low,
      evenHigh: high,
      p: tests[n]!.p,
      q: q[n]!,
      clusterP: tests[n]!.clusterP,
      clusterQ: clusterQ[n]!,
      worse: tests[n]!.worse,
    };
  });
}
