import { describe, expect, test } from 'vitest';
import { gapsBetween, gChart } from '../../../server/contract/statistics/g-chart.ts';
import { laneySpread } from '../../../server/contract/statistics/laney.ts';
import { meanRate, pChart } from '../../../server/contract/statistics/p-chart.ts';
import { seededUniform } from './chance.ts';
import { CANS } from './published.ts';

describe('the chart of rates', () => {
  /* NIST/SEMATECH e-Handbook 6.3.3.2 quotes the mean .2313; limits .4102 and .0524 from memory, digits by R 4.2.2. */
  test('of the orange-juice cans has the textbook’s limits, with samples 15 and 23 out', () => {
    const limits = pChart(CANS);
    expect(limits[0]!.centre).toBeCloseTo(0.2313, 4);
    expect(limits[0]!.high).toBeCloseTo(0.41023912, 7);
    expect(limits[0]!.low).toBeCloseTo(0.05242755, 7);
    expect(limits.flatMap((l, n) => (l.out ? [n + 1] : []))).toEqual([15, 23]);
  });

  /* The same without samples 15 and 23: .2150, .3893, .0407, from memory, reproduced by R 4.2.2. */
  test('has the revised limits when those two are left out', () => {
    const [first] = pChart(CANS.filter((_, n) => n !== 14 && n !== 22));
    expect(first!.centre).toBeCloseTo(0.215, 4);
    expect(first!.high).toBeCloseTo(0.3893, 4);
    expect(first!.low).toBeCloseTo(0.0407, 4);
  });

  /* D. C. Montgomery and G. C. Runger, Applied Statistics and Probability for Engineers, Ex. 16-4: 20 samples of 100, .40, .55, .25. */
  test('of the ceramic substrates has the textbook’s limits', () => {
    const samples = Array.from({ length: 20 }, () => ({ affected: 40, pieces: 100 }));
    const [first] = pChart(samples);
    expect(meanRate(samples)).toBeCloseTo(0.4, 10);
    expect(first!.high).toBeCloseTo(0.5469694, 7);
    expect(first!.low).toBeCloseTo(0.2530306, 7);
  });

  /* R package qcc, np-chart of 50 lots of 200, mean .0357: limits 15.01184 and 0 of 200 (rpubs.com 1407303). */
  test('never goes under 0 or over 1, and is wider for fewer pieces', () => {
    const limits = pChart(
      [
        { affected: 8, pieces: 200 },
        { affected: 1, pieces: 10 },
      ],
      { centre: 0.0357 },
    );
    expect(limits[0]!.low).toBe(0);
    expect(limits[0]!.high * 200).toBeCloseTo(15.01184, 4);
    expect(limits[1]!.high).toBeGreaterThan(limits[0]!.high);
    expect(pChart([{ affected: 3, pieces: 3 }], { centre: 0.9 })[0]!.high).toBe(1);
  });
});

describe('Laney’s correction', () => {
  /* D. B. Laney, Quality Engineering 14 (2002) 531–537; no worked figures seen: checked against known chance instead. */
  test('is about 1 where chance alone is at work, and finds the spread that is put in', () => {
    const random = seededUniform(7);
    const draw = (rate: number, pieces: number) =>
      Array.from({ length: pieces }, random).filter((u) => u < rate).length;
    const chance = Array.from({ length: 400 }, () => ({ affected: draw(0.2, 60), pieces: 60 }));
    expect(Math.abs(laneySpread(chance) - 1)).toBeLessThan(0.1);
    // Rates of 0.1 and 0.3 by turns of chance: variance .01 more than .2·.8/60, so 2.18 times the deviation.
    const firings = Array.from({ length: 400 }, () => ({
      affected: draw(random() < 0.5 ? 0.1 : 0.3, 60),
      pieces: 60,
    }));
    expect(Math.abs(laneySpread(firings) - 2.1)).toBeLessThan(0.3);
  });

  test('is worked by hand on three samples', () => {
    // Mean .2, deviation √(.16/100) = .04: z = −1, 0, 1; mean moving range 1; over 1.128379.
    const samples = [16, 20, 24].map((affected) => ({ affected, pieces: 100 }));
    expect(laneySpread(samples)).toBeCloseTo(1 / 1.128379, 6);
    expect(laneySpread([{ affected: 1, pieces: 9 }])).toBe(1);
  });
});

describe('the chart of firings between rare faults', () => {
  /* F. C. Kaminsky et al. (1992), J. C. Benneyan (2001): ḡ + 3√(ḡ(ḡ + 1)); figures worked from the formula. */
  test('has the limits of the geometric distribution', () => {
    expect(gChart([9, 9])!.high).toBeCloseTo(37.46049894, 7);
    expect(gChart([24])!.high).toBeCloseTo(97.48469228, 7);
    expect(gChart([24])!.low).toBe(0);
    expect(gChart([])).toBeUndefined();
  });

  test('counts the firings between two with the fault, not the open ends', () => {
    expect(gapsBetween([false, true, false, false, true, true, false])).toEqual([2, 0]);
  });
});
