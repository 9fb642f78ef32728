/** What the formulas share: an interval, a count of pieces, and the quantiles that make limits. */
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** `affected` of `pieces`. */
export interface Count {
  readonly affected: number;
  readonly pieces: number;
}

export const CONFIDENCE = 0.95;

/** The standard normal's two-sided quantile: 1.959964 for 95 %. */
export const twoSidedNormal = (confidence: number = CONFIDENCE): number =>
  normalQuantile(1 - (1 - confidence) / 2, 0, 1);

/**
 * Student's two-sided quantile, through the beta distribution: with t of `freedom` degrees of
 * freedom, t²/(t² + freedom) is Beta(1/2, freedom/2).
 */
export function twoSidedStudent(freedom: number, confidence: number = CONFIDENCE): number {
  if (freedom > 1e6) return twoSidedNormal(confidence);
  const share = betaQuantile(confidence, 0.5, freedom / 2);
  return Math.sqrt((freedom * share) / (1 - share));
}
