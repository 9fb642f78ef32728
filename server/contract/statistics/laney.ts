import type { Count } from './interval.ts';
import { chanceOnly, meanRate } from './p-chart.ts';

/** Mean moving range of two over the standard deviation, for normal samples. */
const D2 = 2 / Math.sqrt(Math.PI);

/**
 * How much more (or less) samples in a row vary than chance alone would let them: σz of the p′-chart,
 * D. B. Laney, Quality Engineering 14 (2002) 531–537, from the mean moving range of the z-scores.
 * 1 where it cannot be told (fewer than two samples, or all or none affected).
 */
export function laneySpread(samples: readonly Count[]): number {
  const centre = meanRate(samples);
  if (samples.length < 2 || centre === 0 || centre === 1) return 1;
  const z = samples.map((s) => (s.affected / s.pieces - centre) / chanceOnly(centre, s.pieces));
  const ranges = z.slice(1).map((value, n) => Math.abs(value - z[n]!));
  return ranges.reduce((sum, range) => sum + range, 0) / ranges.length / D2;
}
