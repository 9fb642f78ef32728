import binomialTest from '@stdlib/stats-binomial-test';
import { describe, expect, test } from 'vitest';
import { twoSidedNormal, twoSidedStudent } from '../../../server/contract/statistics/interval.ts';
import { newcombe } from '../../../server/contract/statistics/newcombe.ts';
import { wilson } from '../../../server/contract/statistics/wilson.ts';

describe('the believable range of a rate', () => {
  /*
   * R. G. Newcombe, Stat. Med. 17 (1998) 857–872, Table I, method 3. The pairs 81/263 and 15/148 are
   * quoted in R packages; 0/20 and 1/29 and the four-decimal limits are from memory. Six decimals: R 4.2.2.
   */
  test.each([
    [81, 263, 0.255289, 0.36621],
    [15, 148, 0.062386, 0.160487],
    [0, 20, 0, 0.161125],
    [1, 29, 0.006113, 0.171755],
    [4, 20, 0.080658, 0.416017],
  ])('of %i in %i is as Newcombe printed it and R reckons it', (affected, pieces, low, high) => {
    const range = wilson({ affected, pieces });
    expect(range.low).toBeCloseTo(low, 6);
    expect(range.high).toBeCloseTo(high, 6);
  });

  test('of 340 in 400 is R’s prop.test without correction', () => {
    const range = wilson({ affected: 340, pieces: 400 });
    expect(range.low).toBeCloseTo(0.811686, 6);
    expect(range.high).toBeCloseTo(0.881655, 6);
  });

  test('is the mirror of the range of the sound ones', () => {
    const spoiled = wilson({ affected: 9, pieces: 31 });
    const sound = wilson({ affected: 22, pieces: 31 });
    expect(spoiled.low).toBeCloseTo(1 - sound.high, 12);
    expect(spoiled.high).toBeCloseTo(1 - sound.low, 12);
  });

  test('lies inside the exact range of a reference library, which is known to be too wide', () => {
    for (const [affected, pieces] of [
      [81, 263],
      [15, 148],
      [9, 31],
    ] as const) {
      const exact = binomialTest(affected, pieces);
      const range = wilson({ affected, pieces });
      expect(range.low).toBeGreaterThan(exact.ci[0]!);
      expect(range.high).toBeLessThan(exact.ci[1]!);
    }
  });

  test('is everything from 0 to 1 where no piece was seen', () => {
    expect(wilson({ affected: 0, pieces: 0 })).toEqual({ low: 0, high: 1 });
  });
});

describe('the difference of two rates', () => {
  /*
   * R. G. Newcombe, Stat. Med. 17 (1998) 873–890, Table II, method 10: printed to four decimals
   * (from memory); six decimals by R 4.2.2. The pair 23/60 v 18/72: vassarstats.net.
   */
  test.each([
    [56, 70, 48, 80, 0.2, 0.052431, 0.333873],
    [9, 10, 3, 10, 0.6, 0.170523, 0.809018],
    [6, 7, 2, 7, 0.571429, 0.058228, 0.80625],
    [5, 56, 0, 29, 0.089286, -0.038137, 0.19256],
    [0, 10, 0, 10, 0, -0.277533, 0.277533],
    [10, 10, 0, 10, 1, 0.607509, 1],
    [23, 60, 18, 72, 0.133333, -0.024628, 0.286071],
  ])('%i/%i less %i/%i has Newcombe’s limits', (a, m, b, n, difference, low, high) => {
    const found = newcombe({ affected: a, pieces: m }, { affected: b, pieces: n });
    expect(found.difference).toBeCloseTo(difference, 6);
    expect(found.low).toBeCloseTo(low, 6);
    expect(found.high).toBeCloseTo(high, 6);
  });
});

describe('the quantiles behind the limits', () => {
  /* Standard tables of the normal and Student’s t: from memory. */
  test('are those of the tables', () => {
    expect(twoSidedNormal()).toBeCloseTo(1.959964, 6);
    expect(twoSidedStudent(1)).toBeCloseTo(12.7062, 4);
    expect(twoSidedStudent(4)).toBeCloseTo(2.7764, 4);
    expect(twoSidedStudent(10)).toBeCloseTo(2.2281, 4);
    expect(twoSidedStudent(1e6)).toBeCloseTo(1.959966, 5);
  });
});
