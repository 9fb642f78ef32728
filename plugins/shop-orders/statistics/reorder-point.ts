/**
 * When to print or make again: the smallest stock that demand while waiting does not exceed with the chosen
 * probability. Demand over the wait is taken as Poisson, or, where weeks vary more than that, as negative
 * binomial with the same mean and variance (r = m² / (v - m), p = r / (r + m)); E. A. Silver, D. F. Pyke,
 * R. Peterson, Inventory Management and Production Planning and Scheduling, on the reorder point at a
 * given probability of no stockout.
 */
import negativeBinomial from '@stdlib/stats-base-dists-negative-binomial-quantile';
import poisson from '@stdlib/stats-base-dists-poisson-quantile';

export interface Demand {
  /** Of one week. */
  readonly mean: number;
  /** Of one week, with n - 1 below the line. */
  readonly variance: number;
}

/** @param weekly what went in each week, weeks without any included */
export function demandOf(weekly: readonly number[]): Demand {
  const n = weekly.length;
  if (n === 0) return { mean: 0, variance: 0 };
  const mean = weekly.reduce((sum, one) => sum + one, 0) / n;
  const squares = weekly.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { mean, variance: n > 1 ? squares / (n - 1) : mean };
}

/** The least number that demand over so many weeks does not exceed with probability `level`. */
export function enoughFor({ mean, variance }: Demand, weeks: number, level: number): number {
  const m = mean * weeks;
  if (m <= 0) return 0;
  const v = variance * weeks;
  if (v <= m * (1 + 1e-9)) return poisson(level, m);
  const r = (m * m) / (v - m);
  return negativeBinomial(level, r, r / (r + m));
}
