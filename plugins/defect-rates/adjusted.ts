/** Limits of the common odds ratio that take whole firings as the draw, and a test within each stratum that does. */
import { clusterBootstrap } from '../../server/contract/statistics/bootstrap.ts';
import { type Clustered, clusterTest, pooledDispersion } from '../../server/contract/statistics/cluster.ts';
import { firingRows, type Share } from './strata.ts';

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

interface Both {
  readonly group: Clustered;
  readonly rest: Clustered;
  readonly shared: number;
}

const NONE: Clustered = { pieces: 0, affected: 0, firings: 0, squares: 0, spread: 0 };

const more = (to: Clustered, n: number, y: number): Clustered =>
  n === 0
    ? to
    : {
        pieces: to.pieces + n,
        affected: to.affected + y,
        firings: to.firings + 1,
        squares: to.squares + n * n,
        spread: to.spread + (y * y) / n,
      };

/** Each firing once: what had the glaze, and what had not. */
function bothOf(shares: readonly Share[]): Both {
  const firings = new Map<string, [a: number, b: number, c: number, d: number]>();
  for (const { firing, a, b, c, d } of shares) {
    const sums = firings.get(firing) ?? [0, 0, 0, 0];
    firings.set(firing, [sums[0] + a, sums[1] + b, sums[2] + c, sums[3] + d]);
  }
  let it: Both = { group: NONE, rest: NONE, shared: 0 };
  for (const [a, b, c, d] of firings.values())
    it = {
      group: more(it.group, a + b, a),
      rest: more(it.rest, c + d, c),
      shared: it.shared + (a + b) * (c + d),
    };
  return it;
}

/**
 * p of no difference between the glaze and the rest, pieces of one firing taken as alike: for all
 * together ('') and for each stratum, with one dispersion for all. Null where it cannot be told.
 */
export function clusterTests(
  shares: readonly Share[],
  by: (share: Share) => string,
): ReadonlyMap<string, number | null> {
  const strata = new Map<string, Share[]>();
  for (const share of shares) {
    const its = strata.get(by(share));
    if (its) its.push(share);
    else strata.set(by(share), [share]);
  }
  const all = new Map([...strata].map(([key, its]) => [key, bothOf(its)]));
  const dispersion = pooledDispersion([...all.values()].flatMap(({ group, rest }) => [group, rest]));
  const tested = ({ group, rest, shared }: Both) =>
    group.firings > 1 && rest.firings > 1 ? (clusterTest({ group, rest, shared }, dispersion) ?? null) : null;
  return new Map([
    ['', tested(bothOf(shares))],
    ...[...all].map(([key, both]) => [key, tested(both)] as const),
  ]);
}
