import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cumulativeIncidence } from '../../../server/contract/statistics/aalen-johansen.ts';
import {
  kaplanMeier,
  median,
  medianLimits,
  type Observed,
  quantile,
  survivalAt,
} from '../../../server/contract/statistics/kaplan-meier.ts';

const of = (ended: readonly number[], censored: readonly number[] = []): Observed[] => [
  ...ended.map((time) => ({ time, ended: 1, censored: 0 })),
  ...censored.map((time) => ({ time, ended: 0, censored: 1 })),
];

/*
 * Weeks of remission in acute leukaemia: E. J. Freireich et al., Blood 21 (1963) 699-716, as used by
 * D. R. Cox, J. R. Stat. Soc. B 34 (1972) 187-220. Data and figures from memory.
 */
const TREATED = of([6, 6, 6, 7, 10, 13, 16, 22, 23], [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]);
const UNTREATED = of([1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23]);

describe('how long it takes, where some are not there yet', () => {
  test('the published table of the leukaemia data', () => {
    const steps = kaplanMeier(TREATED).map(({ time, survival }) => [time, Math.round(survival * 1e6) / 1e6]);
    expect(steps).toEqual([
      [6, 0.857143],
      [7, 0.806723],
      [10, 0.752941],
      [13, 0.690196],
      [16, 0.627451],
      [22, 0.537815],
      [23, 0.448179],
    ]);
  });

  test('its median, its error by Greenwood at six weeks, and limits that lie about it', () => {
    const steps = kaplanMeier(TREATED);
    expect(median(steps)).toBe(23);
    expect(steps[0]!.error).toBeCloseTo(0.0764, 4);
    for (const { low, survival, high } of steps) {
      expect(low).toBeLessThan(survival);
      expect(high).toBeGreaterThan(survival);
    }
    // By hand: S ** exp(± 1.96 s / ln S) with S = 18/21 and s = sqrt(3 / (21 · 18)).
    expect(steps[0]!.low).toBeCloseTo(0.6197, 3);
    expect(steps[0]!.high).toBeCloseTo(0.9516, 3);
    expect(medianLimits(steps)).toEqual({ low: 13, high: null });
  });

  test('is the plain share where all came to their end', () => {
    const steps = kaplanMeier(UNTREATED);
    expect(median(steps)).toBe(8);
    for (const { time, survival } of steps)
      expect(survival).toBeCloseTo(UNTREATED.filter((one) => one.time > time).length / 21, 12);
    expect(survivalAt(steps, 23)).toBeCloseTo(0, 12);
    expect(quantile(steps, 0.9)).toBe(17);
  });

  test('has no median where fewer than half have come', () => {
    expect(median(kaplanMeier(of([3], [4, 5, 6])))).toBeNull();
    expect(median(kaplanMeier([]))).toBeNull();
  });

  const observed = fc.array(fc.record({ time: fc.nat(60), ended: fc.nat(5), censored: fc.nat(5) }), {
    maxLength: 40,
  });

  test('never rises, whatever is seen, and does not care how it is counted up', () => {
    fc.assert(
      fc.property(observed, (all) => {
        const steps = kaplanMeier(all);
        let before = 1;
        for (const { survival } of steps) {
          expect(survival).toBeLessThanOrEqual(before);
          expect(survival).toBeGreaterThanOrEqual(0);
          before = survival;
        }
        const singly = all.flatMap(({ time, ended, censored }) =>
          of(new Array(ended).fill(time), new Array(censored).fill(time)),
        );
        expect(kaplanMeier(singly)).toEqual(steps);
      }),
      { numRuns: 100 },
    );
  });
});

test('what is seen for longer than the last end counts the same, however long', () => {
  const end = fc.constantFrom('arrived', 'lost');
  const outcome = fc.record({ time: fc.nat(60), end, count: fc.integer({ min: 1, max: 9 }) });
  const long = fc.record({ over: fc.nat(900), count: fc.integer({ min: 1, max: 9 }) });
  fc.assert(
    fc.property(fc.array(outcome, { minLength: 1 }), fc.array(long), (ended, longer) => {
      const last = Math.max(...ended.map(({ time }) => time));
      const at = (time: (over: number) => number) => [
        ...ended,
        ...longer.map(({ over, count }) => ({ time: last + 1 + time(over), end: null, count })),
      ];
      const observed = (all: ReturnType<typeof at>) =>
        all.map(({ time, end: how, count }) => ({
          time,
          ended: how === 'arrived' ? count : 0,
          censored: how === 'arrived' ? 0 : count,
        }));
      const [each, one] = [at((over) => over), at(() => 0)];
      expect(kaplanMeier(observed(one))).toEqual(kaplanMeier(observed(each)));
      expect(cumulativeIncidence(one)).toEqual(cumulativeIncidence(each));
    }),
  );
});

describe('several ends', () => {
  test('are plain shares where all came to one', () => {
    const shares = cumulativeIncidence([
      { time: 3, end: 'arrived', count: 6 },
      { time: 5, end: 'arrived', count: 2 },
      { time: 60, end: 'lost', count: 2 },
    ]);
    expect(shares.arrived).toBeCloseTo(0.8, 12);
    expect(shares.lost).toBeCloseTo(0.2, 12);
  });

  test('and with one kind of end are what is left by Kaplan and Meier', () => {
    const some = fc.array(fc.record({ time: fc.nat(40), ended: fc.nat(4), censored: fc.nat(4) }), {
      minLength: 1,
    });
    fc.assert(
      fc.property(some, (all) => {
        const outcomes = all.flatMap(({ time, ended, censored }) => [
          { time, end: 'arrived', count: ended },
          { time, end: null, count: censored },
        ]);
        const left = kaplanMeier(all).at(-1)?.survival ?? 1;
        const { arrived = 0 } = cumulativeIncidence(outcomes.filter(({ count }) => count > 0));
        expect(1 - arrived).toBeCloseTo(left, 9);
      }),
      { numRuns: 100 },
    );
  });
});
