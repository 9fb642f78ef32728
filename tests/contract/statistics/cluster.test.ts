import { describe, expect, test } from 'vitest';
import { clusterBootstrap } from '../../../server/contract/statistics/bootstrap.ts';
import {
  type Clustered,
  clusterInterval,
  clusterTest,
  designEffect,
  differenceOf,
  pooledDispersion,
} from '../../../server/contract/statistics/cluster.ts';
import { newcombe } from '../../../server/contract/statistics/newcombe.ts';
import { wilson } from '../../../server/contract/statistics/wilson.ts';
import { seededUniform } from './chance.ts';

const group = (...firings: readonly (readonly [number, number])[]): Clustered => ({
  affected: firings.reduce((sum, [y]) => sum + y, 0),
  pieces: firings.reduce((sum, [, n]) => sum + n, 0),
  firings: firings.length,
  squares: firings.reduce((sum, [, n]) => sum + n * n, 0),
  spread: firings.reduce((sum, [y, n]) => sum + (y * y) / n, 0),
});

/** Firings whose rates are drawn from a beta with the given mean and correlation, by rejection-free order statistics of small whole shapes. */
function simulated(random: () => number, a: number, b: number, firings: number, pieces: number) {
  const beta = () => Array.from({ length: a + b - 1 }, random).sort((x, y) => x - y)[a - 1]!;
  return Array.from({ length: firings }, () => {
    const rate = beta();
    return [Array.from({ length: pieces }, random).filter((u) => u < rate).length, pieces] as const;
  });
}

describe('pieces that shared a firing', () => {
  test('are worth one piece a firing where a firing spoils all or none', () => {
    const all = group([10, 10], [0, 10], [10, 10], [0, 10]);
    const dispersion = pooledDispersion([all]);
    expect(dispersion).toEqual({ rho: 1, freedom: 3 });
    expect(designEffect(all, 1)).toBe(10);
  });

  test('are worth themselves where firings differ less than chance', () => {
    const even = group([2, 10], [2, 10], [2, 10]);
    expect(pooledDispersion([even])).toEqual({ rho: 0, freedom: 2 });
    const ample = { rho: 0, freedom: 1e7 };
    expect(clusterInterval(even, ample)!.high).toBeCloseTo(wilson(even).high, 6);
  });

  test('have the analysis-of-variance correlation, worked by hand', () => {
    // Two firings of 4 with 1 and 3: between .5 on 1 degree, within 1.5 on 6; (.5 − .25)/(.5 + 3·.25).
    expect(pooledDispersion([group([1, 4], [3, 4])]).rho).toBeCloseTo(0.25 / 1.25, 12);
  });

  test('have the correlation that was put in, whatever the groups’ rates', () => {
    const random = seededUniform(11);
    const groups = [
      group(...simulated(random, 1, 4, 1_500, 12)),
      group(...simulated(random, 2, 3, 1_500, 12)),
    ];
    // Beta(a, b) has correlation 1/(a + b + 1) between two pieces of one firing.
    expect(Math.abs(pooledDispersion(groups).rho - 1 / 6)).toBeLessThan(0.02);
  });

  test('have no cluster interval from a single firing', () => {
    const dispersion = pooledDispersion([group([1, 4], [3, 4])]);
    expect(clusterInterval(group([3, 9]), dispersion)).toBeUndefined();
    expect(clusterInterval(group([3, 9], [1, 4]), { rho: 0, freedom: 0 })).toBeUndefined();
  });

  test('have intervals that hold the truth where plain ones do not', () => {
    const random = seededUniform(5);
    let [plain, clustered] = [0, 0];
    const times = 600;
    for (let time = 0; time < times; time++) {
      const groups = [
        group(...simulated(random, 1, 4, 8, 12)),
        ...Array.from({ length: 4 }, () => group(...simulated(random, 1, 4, 6, 12))),
      ];
      const range = clusterInterval(groups[0]!, pooledDispersion(groups))!;
      const narrow = wilson(groups[0]!);
      if (range.low <= 0.2 && 0.2 <= range.high) clustered++;
      if (narrow.low <= 0.2 && 0.2 <= narrow.high) plain++;
    }
    expect(plain / times).toBeLessThan(0.8);
    expect(clustered / times).toBeGreaterThan(0.92);
    expect(clustered / times).toBeLessThan(0.98);
  });

  test('accuse a group no more often than one time in twenty where nothing is wrong', () => {
    const random = seededUniform(23);
    let accused = 0;
    const times = 600;
    for (let time = 0; time < times; time++) {
      const firings = Array.from({ length: 20 }, () => simulated(random, 1, 4, 1, 16)[0]!);
      const halves = firings.map(([y]) => {
        // Six of the sixteen stand for the group: drawn without regard to whether they are spoiled.
        let [left, spoiled, mine] = [16, y, 0];
        for (let n = 0; n < 6; n++, left--)
          if (random() < spoiled / left) [spoiled, mine] = [spoiled - 1, mine + 1];
        return { mine, others: y - mine };
      });
      const one = group(...halves.map(({ mine }) => [mine, 6] as const));
      const rest = group(...halves.map(({ others }) => [others, 10] as const));
      const p = clusterTest({ group: one, rest, shared: 20 * 60 }, pooledDispersion([one, rest]))!;
      if (p < 0.05) accused++;
    }
    expect(accused / times).toBeLessThan(0.075);
    expect(accused / times).toBeGreaterThan(0.02);
  });
});

describe('a difference of rates from two sets of firings', () => {
  test('is Newcombe’s where the pieces are independent', () => {
    const [one, two] = [
      { affected: 56, pieces: 70 },
      { affected: 48, pieces: 80 },
    ];
    const limits = differenceOf({ rate: 0.8, ...wilson(one) }, { rate: 0.6, ...wilson(two) });
    expect(limits.low).toBeCloseTo(newcombe(one, two).low, 12);
    expect(limits.high).toBeCloseTo(newcombe(one, two).high, 12);
  });
});

describe('drawing firings again and again', () => {
  const rows = simulated(seededUniform(3), 1, 4, 60, 12);
  const rate = ([y, n]: readonly number[]) => (n ? y! / n : Number.NaN);

  test('gives the same limits every time, near those of the theory', () => {
    const limits = clusterBootstrap(rows, rate)!;
    expect(limits).toEqual(clusterBootstrap(rows, rate));
    const whole = group(...rows);
    const theory = clusterInterval(whole, pooledDispersion([whole]))!;
    expect(Math.abs(limits.low - theory.low)).toBeLessThan(0.02);
    expect(Math.abs(limits.high - theory.high)).toBeLessThan(0.02);
  });

  test('deals very many firings into hands without changing what they say', () => {
    const many = simulated(seededUniform(4), 1, 4, 3_000, 6);
    const whole = group(...many);
    const theory = clusterInterval(whole, pooledDispersion([whole]))!;
    const limits = clusterBootstrap(many, rate)!;
    expect(Math.abs(limits.high - limits.low - (theory.high - theory.low))).toBeLessThan(0.004);
  });

  test('says nothing of a single firing', () => {
    expect(clusterBootstrap([[1, 4]], rate)).toBeUndefined();
  });
});
