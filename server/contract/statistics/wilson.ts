import { CONFIDENCE, type Count, type Interval, twoSidedNormal } from './interval.ts';

/**
 * Score interval of a proportion without continuity correction: E. B. Wilson, JASA 22 (1927)
 * 209–212; method 3 of R. G. Newcombe, Stat. Med. 17 (1998) 857–872. Counts need not be whole
 * (an effective size may be given). Without pieces everything is believable: 0 to 1.
 */
export function wilson({ affected, pieces }: Count, z: number = twoSidedNormal(CONFIDENCE)): Interval {
  if (pieces <= 0) return { low: 0, high: 1 };
  const rate = affected / pieces;
  const middle = 2 * affected + z * z;
  const reach = z * Math.sqrt(z * z + 4 * affected * (1 - rate));
  const whole = 2 * (pieces + z * z);
  return {
    low: affected === 0 ? 0 : (middle - reach) / whole,
    high: affected === pieces ? 1 : (middle + reach) / whole,
  };
}
