/**
 * Pieces of one firing share its luck, so they tell less than as many from different firings.
 * Beta-binomial model with the firing as cluster: two pieces of one firing are alike with the
 * correlation ρ, one for all groups. ρ is the analysis-of-variance estimate (M. S. Ridout,
 * C. G. B. Demétrio and D. Firth, Biometrics 55 (1999) 137–148), pooled over the groups and never under 0;
 * it is always used, not only where a test finds it. Pieces that a group's count is worth:
 * n / (1 + ρ(Σnᵢ²/n − 1)), the design effect of J. N. K. Rao and A. J. Scott, Biometrics 48
 * (1992) 577–585; Wilson's interval on that. Of its variance the part of single pieces is known and the part of
 * the firings estimated, so Student's quantile has the degrees of freedom of F. E. Satterthwaite,
 * Biometrics Bulletin 2 (1946) 110–114: those that ρ is known from × (whole / estimated part)².
 */
import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import chisquare from '@stdlib/stats-base-dists-chisquare-cdf';
import { CONFIDENCE, type Count, type Interval, twoSidedStudent } from './interval.ts';
import { wilson } from './wilson.ts';

/** A group's pieces summed over its firings. */
export interface Clustered extends Count {
  readonly firings: number;
  /** Σ pieces² over its firings. */
  readonly squares: number;
  /** Σ affected²/pieces over its firings. */
  readonly spread: number;
}

export interface Dispersion {
  /** Correlation of two pieces of one firing, 0 to 1. */
  readonly rho: number;
  /** Firings less groups: what it is known from. 0: not known at all. */
  readonly freedom: number;
}

/** Under so many firings a group's interval is called by that name. */
export const FEW_FIRINGS = 5;

export function pooledDispersion(groups: readonly Clustered[]): Dispersion {
  let [between, within, firings, pieces, alike, used] = [0, 0, 0, 0, 0, 0];
  for (const group of groups) {
    if (group.pieces === 0) continue;
    used++;
    between += group.spread - group.affected ** 2 / group.pieces;
    within += group.affected - group.spread;
    firings += group.firings;
    pieces += group.pieces;
    alike += group.squares / group.pieces;
  }
  const freedom = firings - used;
  if (freedom < 1) return { rho: 0, freedom: 0 };
  if (pieces === firings) return { rho: 0, freedom };
  const meanBetween = between / freedom;
  const meanWithin = within / (pieces - firings);
  const size = (pieces - alike) / freedom;
  const all = meanBetween + (size - 1) * meanWithin;
  return { rho: all <= 0 ? 0 : Math.min(1, Math.max(0, (meanBetween - meanWithin) / all)), freedom };
}

/** How many times the variance of the rate is what independent pieces would give. */
export const designEffect = (group: Clustered, rho: number): number =>
  1 + rho * Math.max(0, group.squares / group.pieces - 1);

/** Degrees of freedom of a variance that is `effect` times that of single pieces. */
export const freedomOf = (effect: number, { freedom }: Dispersion): number =>
  effect <= 1 ? Number.POSITIVE_INFINITY : freedom * (effect / (effect - 1)) ** 2;

/** Undefined with fewer than two firings, or where no group has two. */
export function clusterInterval(
  group: Clustered,
  dispersion: Dispersion,
  confidence: number = CONFIDENCE,
): Interval | undefined {
  if (group.firings < 2 || dispersion.freedom < 1) return undefined;
  const effect = designEffect(group, dispersion.rho);
  const worth = { affected: group.affected / effect, pieces: group.pieces / effect };
  return wilson(worth, twoSidedStudent(freedomOf(effect, dispersion), confidence));
}

/** What a comparison needs besides the two groups: Σ over firings of pieces here × pieces there. */
export interface Beside {
  readonly group: Clustered;
  readonly rest: Clustered;
  readonly shared: number;
}

/**
 * p of no difference between a group and the rest, two-sided: the score test of two proportions
 * with the variance of the same beta-binomial model, in which pieces of group and rest from one
 * firing are correlated too. Undefined where nothing can be told.
 */
export function clusterTest({ group, rest, shared }: Beside, dispersion: Dispersion): number | undefined {
  const { rho, freedom } = dispersion;
  if (group.pieces === 0 || rest.pieces === 0 || freedom < 1) return undefined;
  const rate = (group.affected + rest.affected) / (group.pieces + rest.pieces);
  if (rate === 0 || rate === 1) return undefined;
  const single = 1 / group.pieces + 1 / rest.pieces;
  const whole =
    designEffect(group, rho) / group.pieces +
    designEffect(rest, rho) / rest.pieces -
    (2 * rho * shared) / (group.pieces * rest.pieces);
  if (whole <= 0) return undefined;
  const square =
    (group.affected / group.pieces - rest.affected / rest.pieces) ** 2 / (rate * (1 - rate) * whole);
  return studentTail(square, freedomOf(whole / single, dispersion));
}

/** Two-sided tail of Student's t from its square; through the beta distribution, as the quantile is. */
function studentTail(square: number, freedom: number): number {
  if (freedom > 1e6) return 1 - chisquare(square, 1);
  return betaCdf(freedom / (freedom + square), freedom / 2, 0.5);
}

/**
 * Limits of a difference from the limits of both rates, squared and added: G. Y. Zou and
 * A. Donner, Stat. Med. 27 (2008) 1693–1702; with cluster intervals it respects the firings.
 */
export function differenceOf(
  one: { readonly rate: number } & Interval,
  two: { readonly rate: number } & Interval,
): Interval {
  const difference = one.rate - two.rate;
  return {
    low: difference - Math.hypot(one.rate - one.low, two.high - two.rate),
    high: difference + Math.hypot(one.high - one.rate, two.rate - two.low),
  };
}
