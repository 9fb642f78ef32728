/**
 * Wilson's score interval for a proportion, without continuity correction: E. B. Wilson, J. Am.
 * Stat. Assoc. 22 (1927) 209-212; method 3 of Newcombe, Stat. Med. 17 (1998) 857-872.
 */
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';

export function wilson(part: number, whole: number, level = 0.95): { low: number; high: number } {
  if (whole === 0) return { low: 0, high: 1 };
  const z = normalQuantile((1 + level) / 2, 0, 1);
  const share = part / whole;
  const centre = share + z ** 2 / (2 * whole);
  const reach = z * Math.sqrt((share * (1 - share)) / whole + z ** 2 / (4 * whole ** 2));
  const scale = 1 + z ** 2 / whole;
  return {
    low: part === 0 ? 0 : (centre - reach) / scale,
    high: part === whole ? 1 : (centre + reach) / scale,
  };
}
