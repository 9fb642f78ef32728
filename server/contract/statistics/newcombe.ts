import { CONFIDENCE, type Count, type Interval, twoSidedNormal } from './interval.ts';
import { wilson } from './wilson.ts';

export interface Difference extends Interval {
  /** First rate less second. */
  readonly difference: number;
}

/**
 * Difference of two independent proportions with the hybrid score interval: method 10 of
 * R. G. Newcombe, Stat. Med. 17 (1998) 873–890. Takes the pieces as independent.
 */
export function newcombe(first: Count, second: Count, confidence: number = CONFIDENCE): Difference {
  const z = twoSidedNormal(confidence);
  const one = first.affected / first.pieces;
  const two = second.affected / second.pieces;
  const difference = one - two;
  const a = wilson(first, z);
  const b = wilson(second, z);
  return {
    difference,
    low: difference - Math.hypot(one - a.low, b.high - two),
    high: difference + Math.hypot(a.high - one, two - b.low),
  };
}
