import type { Count, Interval } from './interval.ts';

export interface Limits extends Interval {
  readonly centre: number;
  /** The rate lies outside its own limits. */
  readonly out: boolean;
}

/** All affected over all pieces: the centre line of a p-chart. */
export function meanRate(samples: readonly Count[]): number {
  const pieces = samples.reduce((sum, s) => sum + s.pieces, 0);
  return pieces === 0 ? 0 : samples.reduce((sum, s) => sum + s.affected, 0) / pieces;
}

/** Standard deviation of a sample's rate, were chance alone at work. */
export const chanceOnly = (centre: number, pieces: number): number =>
  Math.sqrt((centre * (1 - centre)) / pieces);

/**
 * Three-sigma limits for each sample's own size, clipped to 0..1: D. C. Montgomery, Introduction
 * to Statistical Quality Control, the p-chart with variable sample size; NIST/SEMATECH e-Handbook
 * 6.3.3.2. `spread` widens all limits alike (1: chance only; see laney.ts).
 */
export function pChart(
  samples: readonly Count[],
  { centre = meanRate(samples), spread = 1 }: { centre?: number; spread?: number } = {},
): Limits[] {
  return samples.map(({ affected, pieces }) => {
    const reach = 3 * spread * chanceOnly(centre, pieces);
    const low = Math.max(0, centre - reach);
    const high = Math.min(1, centre + reach);
    const rate = affected / pieces;
    return { centre, low, high, out: rate < low || rate > high };
  });
}
