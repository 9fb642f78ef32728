import { describe, expect, test } from 'vitest';
import {
  byMoments,
  logLikelihood,
  maximumLikelihood,
  patterns,
} from '../../../server/contract/statistics/beta-binomial.ts';
import { evenedOut, hyperPosterior } from '../../../server/contract/statistics/evened-out.ts';
import { AT_BATS, HITS, RATS } from './published.ts';

const historical = RATS.slice(0, 70);

describe('the rat tumours', () => {
  test('are the published table: 267 tumours in 1739 rats of 71 groups', () => {
    expect(RATS).toHaveLength(71);
    expect(RATS.reduce((sum, g) => sum + g.affected, 0)).toBe(267);
    expect(RATS.reduce((sum, g) => sum + g.pieces, 0)).toBe(1739);
  });

  /* BDA3 p. 102–103: (1.4, 8.6), Beta(5.4, 18.6), mean .223, from memory; digits by R 4.2.2. */
  test('have the moment fit of the textbook', () => {
    const rates = historical.map((g) => g.affected / g.pieces);
    const mean = rates.reduce((sum, r) => sum + r, 0) / 70;
    const deviation = Math.sqrt(rates.reduce((sum, r) => sum + (r - mean) ** 2, 0) / 69);
    const { alpha, beta } = byMoments(mean, deviation);
    expect(alpha).toBeCloseTo(1.356149, 6);
    expect(beta).toBeCloseTo(8.615058, 6);
    expect((alpha + 4) / (alpha + beta + 14)).toBeCloseTo(0.223, 3);
  });

  /* Maximum likelihood: R package BayesGOF, vignette (α 2.304768, β 14.079707); R 4.2.2: 2.30478, 14.07981, −154.1402497. */
  test('have the published maximum likelihood fit', () => {
    const { alpha, beta, logLikelihood: top } = maximumLikelihood(historical);
    expect(Math.abs(alpha - 2.30478)).toBeLessThan(1e-4);
    expect(Math.abs(beta - 14.07981)).toBeLessThan(5e-4);
    expect(top).toBeCloseTo(-154.1402497, 7);
  });

  /* BDA3 §5.3: E(α|y) = 2.4, E(β|y) = 14.3, from memory; 2.40267, 14.32006 and E(θ₇₁|y) = .21086 on a grid in R 4.2.2. */
  test('have the published posterior of the hyperparameters', () => {
    const points = hyperPosterior(RATS);
    const alpha = points.reduce((sum, p) => sum + p.weight * p.alpha, 0);
    const beta = points.reduce((sum, p) => sum + p.weight * p.beta, 0);
    expect(alpha).toBeCloseTo(2.40267, 2);
    expect(beta).toBeCloseTo(14.32006, 1);
    expect(evenedOut(RATS)[70]!.mean).toBeCloseTo(0.21086, 4);
  });

  test('are evened out: the extreme groups move in, the large ones least', () => {
    const even = evenedOut(RATS);
    for (const [n, { mean, low, high }] of even.entries()) {
      const raw = RATS[n]!.affected / RATS[n]!.pieces;
      expect(low).toBeLessThan(mean);
      expect(high).toBeGreaterThan(mean);
      if (raw === 0) expect(mean).toBeGreaterThan(0.05);
      if (raw > 0.35) expect(mean).toBeLessThan(raw);
    }
  });
});

describe('the batters', () => {
  /*
   * B. Efron and C. Morris, Sci. Am. 236(5) (1977) 119–127: mean .265, factor .212, estimates from
   * memory (the factor quoted on the SAS and R blog); .2654321 and .2116534 by R 4.2.2. James–Stein is an
   * evening-out by another road, so the hierarchical model must come close to it.
   */
  const JAMES_STEIN = [
    0.294, 0.289, 0.285, 0.28, 0.275, 0.275, 0.27, 0.266, 0.261, 0.261, 0.256, 0.256, 0.256, 0.256, 0.256,
    0.252, 0.247, 0.242,
  ];

  test('are evened out nearly as published by another method', () => {
    const even = evenedOut(HITS.map((affected) => ({ affected, pieces: AT_BATS })));
    for (const [n, { mean, low, high }] of even.entries()) {
      expect(Math.abs(mean - JAMES_STEIN[n]!)).toBeLessThan(0.02);
      expect(low).toBeLessThan(JAMES_STEIN[n]!);
      expect(high).toBeGreaterThan(JAMES_STEIN[n]!);
    }
    expect(even.map((e) => e.mean)).toEqual(even.map((e) => e.mean).toSorted((a, b) => b - a));
  });

  test('hardly differ by more than chance: maximum likelihood leans far on the mean', () => {
    const { alpha, beta } = maximumLikelihood(HITS.map((affected) => ({ affected, pieces: AT_BATS })));
    expect(alpha / (alpha + beta)).toBeCloseTo(0.2654, 3);
    expect(alpha + beta).toBeGreaterThan(100);
  });
});

describe('evening out', () => {
  test('agrees with the same sums done on a fine grid by brute force', () => {
    const groups = [
      { affected: 1, pieces: 4 },
      { affected: 9, pieces: 31 },
      { affected: 20, pieces: 150 },
    ];
    const counted = patterns(groups);
    let [weight, sum] = [0, 0];
    for (let v = 0; v <= Math.log(1e6); v += 0.02)
      for (let u = -8; u <= 6; u += 0.02) {
        const mean = 1 / (1 + Math.exp(-u));
        const [alpha, beta] = [Math.exp(v) * mean, Math.exp(v) * (1 - mean)];
        const w = Math.exp(logLikelihood(counted, { alpha, beta }) + 90) * alpha * beta * Math.exp(-2.5 * v);
        weight += w;
        sum += (w * (alpha + 1)) / (alpha + beta + 4);
      }
    expect(evenedOut(groups)[0]!.mean).toBeCloseTo(sum / weight, 3);
  });

  test('of a group that leans on nobody is near its own rate, and of few pieces near the others', () => {
    const others = Array.from({ length: 8 }, () => ({ affected: 10, pieces: 100 }));
    const even = evenedOut([{ affected: 2, pieces: 3 }, { affected: 300, pieces: 1000 }, ...others]);
    expect(even[0]!.mean).toBeLessThan(0.3);
    expect(even[0]!.high).toBeGreaterThan(0.3);
    expect(even[1]!.mean).toBeCloseTo(0.3, 1);
  });

  test('stands firm where nothing is spoiled, or everything, or nothing was made', () => {
    const sound = evenedOut([
      { affected: 0, pieces: 12 },
      { affected: 0, pieces: 40 },
    ]);
    expect(sound[0]!.low).toBeGreaterThanOrEqual(0);
    expect(sound[0]!.mean).toBeLessThan(0.1);
    expect(sound[1]!.high).toBeLessThan(0.15);
    const spoiled = evenedOut([
      { affected: 12, pieces: 12 },
      { affected: 40, pieces: 40 },
    ]);
    expect(spoiled[1]!.low).toBeGreaterThan(0.85);
    expect(evenedOut([{ affected: 0, pieces: 0 }])).toEqual([{ mean: 0.5, low: 0, high: 1 }]);
  });

  test('its interval holds 95 % of the mixture: two groups with a known posterior', () => {
    const [only] = evenedOut([{ affected: 500, pieces: 1000 }]);
    expect(only!.mean).toBeCloseTo(0.5, 2);
    expect(only!.high - only!.low).toBeCloseTo(2 * 1.96 * Math.sqrt(0.25 / 1000), 2);
  });
});
