import hypergeometric from '@stdlib/stats-base-dists-hypergeometric-pmf';
import padjust from '@stdlib/stats-padjust';
import { describe, expect, test } from 'vitest';
import { benjaminiHochberg } from '../../../server/contract/statistics/benjamini-hochberg.ts';
import { conditionalOddsRatio, fisher } from '../../../server/contract/statistics/fisher.ts';
import { mantelHaenszel } from '../../../server/contract/statistics/mantel-haenszel.ts';

describe('Fisher’s exact test', () => {
  /* R manual, ?fisher.test (A. Agresti, Categorical Data Analysis, 1990, p. 61): one-sided .2429 printed; the rest R 4.2.2. */
  const tea = { a: 3, b: 1, c: 1, d: 3 };
  test('of the tea taster', () => {
    const found = fisher(tea);
    expect(found.greater).toBeCloseTo(0.2428571429, 10);
    expect(found.p).toBeCloseTo(0.4857142857, 10);
    // R searches it to four decimals; it is the root of t⁴ − 36t² − 32t − 3.
    const t = conditionalOddsRatio(tea);
    expect(t).toBeCloseTo(6.408309, 4);
    expect(t ** 4 - 36 * t ** 2 - 32 * t - 3).toBeCloseTo(0, 6);
  });

  /* R manual, ?fisher.test (R. A. Fisher 1962; convictions of twins); digits by R 4.2.2. */
  const twins = { a: 2, b: 10, c: 15, d: 3 };
  test('of the convicted twins', () => {
    const found = fisher(twins);
    expect(found.less).toBeCloseTo(0.0004651809, 10);
    expect(found.p).toBeCloseTo(0.0005367241, 10);
    expect(conditionalOddsRatio(twins)).toBeCloseTo(0.04693661, 7);
  });

  test('agrees with a library’s probabilities summed one by one', () => {
    const [a, b, c, d] = [4, 27, 30, 310];
    const [affected, group, all] = [a + c, a + b, a + b + c + d];
    const seen = hypergeometric(a, all, affected, group);
    let sum = 0;
    for (let k = 0; k <= Math.min(affected, group); k++) {
      const p = hypergeometric(k, all, affected, group);
      if (p <= seen * (1 + 1e-7)) sum += p;
    }
    expect(fisher({ a, b, c, d }).p).toBeCloseTo(sum, 10);
  });

  test('says 1 where nothing can differ, and copes with a million pieces', () => {
    expect(fisher({ a: 0, b: 10, c: 0, d: 40 }).p).toBeCloseTo(1, 12);
    const even = fisher({ a: 50_000, b: 450_000, c: 50_000, d: 450_000 });
    expect(even.p).toBeGreaterThan(0.99);
    expect(fisher({ a: 51_000, b: 449_000, c: 49_000, d: 451_000 }).p).toBeLessThan(1e-9);
  });

  test('of a fluke has no odds that are finite', () => {
    expect(conditionalOddsRatio({ a: 0, b: 5, c: 3, d: 9 })).toBe(0);
    expect(conditionalOddsRatio({ a: 5, b: 0, c: 3, d: 9 })).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('many comparisons at once', () => {
  /* Y. Benjamini and Y. Hochberg, JRSS-B 57 (1995) 289–300, §4.1: the fifteen p values, from memory; adjusted ones by R 4.2.2. */
  const P = [
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
    0.759, 1,
  ];
  const ADJUSTED = [
    0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.0638571429, 0.0638571429, 0.0645, 0.0765, 0.486, 0.5811818182,
    0.714875, 0.7532307692, 0.8132142857, 1,
  ];

  test('keep the four smallest of the published fifteen at one in twenty', () => {
    const adjusted = benjaminiHochberg(P);
    for (const [n, value] of ADJUSTED.entries()) expect(adjusted[n]!).toBeCloseTo(value, 10);
    expect(adjusted.filter((q) => q! <= 0.05)).toHaveLength(4);
  });

  test('agree with a reference library, in any order and with ties', () => {
    const mixed = [...P.slice(7), 0.0298, 0.0278, ...P.slice(0, 7)];
    const expected = padjust(mixed, 'bh');
    for (const [n, value] of benjaminiHochberg(mixed).entries()) expect(value!).toBeCloseTo(expected[n]!, 12);
  });

  test('count only the tests there were', () => {
    expect(benjaminiHochberg([0.01, null, 0.04])).toEqual([0.02, null, 0.04]);
  });
});

describe('odds over strata', () => {
  /* R manual, ?mantelhaen.test: the rabbits given penicillin, counts from memory; digits by R 4.2.2. */
  const rabbits = [
    { a: 0, b: 6, c: 0, d: 5 },
    { a: 3, b: 3, c: 0, d: 6 },
    { a: 6, b: 0, c: 2, d: 4 },
    { a: 5, b: 1, c: 6, d: 0 },
    { a: 2, b: 0, c: 5, d: 0 },
  ];

  test('of the rabbits: 7, with the Robins-Breslow-Greenland limits, degenerate strata borne', () => {
    const found = mantelHaenszel(rabbits);
    expect(found.oddsRatio).toBeCloseTo(7, 10);
    expect(found.low).toBeCloseTo(1.026713, 6);
    expect(found.high).toBeCloseTo(47.725133, 5);
    expect(found.chiSquare).toBeCloseTo(3.928571, 6);
    expect(found.p).toBeCloseTo(0.04747226, 8);
    expect(found.informative).toBe(3);
  });

  test('of one stratum are its own odds', () => {
    expect(mantelHaenszel([{ a: 9, b: 22, c: 30, d: 310 }]).oddsRatio).toBeCloseTo((9 * 310) / (22 * 30), 10);
  });

  test('are without limits where no stratum points the other way, and missing where none compares', () => {
    const onlyUp = mantelHaenszel([{ a: 3, b: 4, c: 0, d: 8 }]);
    expect(onlyUp.oddsRatio).toBe(Number.POSITIVE_INFINITY);
    expect(onlyUp.low).toBeUndefined();
    expect(mantelHaenszel([{ a: 3, b: 4, c: 0, d: 0 }])).toEqual({ informative: 0 });
  });
});
