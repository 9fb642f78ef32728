import chisquare from '@stdlib/stats-base-dists-chisquare-cdf';
import type { Fourfold } from './fisher.ts';
import { CONFIDENCE, type Interval, twoSidedNormal } from './interval.ts';

export interface CommonOdds extends Partial<Interval> {
  /** 0 or Infinity where the strata only ever point one way; undefined where no stratum compares anything. */
  readonly oddsRatio?: number;
  /** With continuity correction; undefined where nothing can vary. */
  readonly chiSquare?: number;
  readonly p?: number;
  /** Strata that hold both groups and both outcomes: only these tell anything. */
  readonly informative: number;
}

const total = ({ a, b, c, d }: Fourfold): number => a + b + c + d;

const informs = ({ a, b, c, d }: Fourfold): boolean => a + b > 0 && c + d > 0 && a + c > 0 && b + d > 0;

/** N. Mantel and W. Haenszel, JNCI 22 (1959) 719–748, with their correction of one half. */
function test(strata: readonly Fourfold[]): { chiSquare?: number; p?: number } {
  let excess = 0;
  let variance = 0;
  for (const s of strata) {
    const n = total(s);
    const [group, affected] = [s.a + s.b, s.a + s.c];
    excess += s.a - (group * affected) / n;
    variance += (group * (n - group) * affected * (n - affected)) / (n * n * (n - 1));
  }
  if (variance <= 0) return {};
  const chiSquare = Math.max(0, Math.abs(excess) - 0.5) ** 2 / variance;
  return { chiSquare, p: 1 - chisquare(chiSquare, 1) };
}

/**
 * Odds ratio common to all strata (Mantel and Haenszel 1959) with the limits of J. Robins,
 * N. Breslow and S. Greenland, Biometrics 42 (1986) 311–323. A stratum in which one group or one
 * outcome is missing adds nothing and is borne. Takes the pieces as independent.
 */
export function mantelHaenszel(all: readonly Fourfold[], confidence: number = CONFIDENCE): CommonOdds {
  const strata = all.filter(informs);
  let [r, s, pr, mixed, qs] = [0, 0, 0, 0, 0];
  for (const stratum of strata) {
    const { a, b, c, d } = stratum;
    const n = total(stratum);
    const [along, across] = [(a + d) / n, (b + c) / n];
    const [up, down] = [(a * d) / n, (b * c) / n];
    r += up;
    s += down;
    pr += along * up;
    mixed += along * down + across * up;
    qs += across * down;
  }
  const base = { informative: strata.length, ...test(strata) };
  if (r === 0 && s === 0) return base;
  if (r === 0 || s === 0) return { ...base, oddsRatio: r === 0 ? 0 : Number.POSITIVE_INFINITY };
  const error = Math.sqrt(pr / (2 * r * r) + mixed / (2 * r * s) + qs / (2 * s * s));
  const reach = twoSidedNormal(confidence) * error;
  const log = Math.log(r / s);
  return { ...base, oddsRatio: r / s, low: Math.exp(log - reach), high: Math.exp(log + reach) };
}
