/**
 * Evened-out rates: groups of one kind are taken as drawn from one beta distribution, so that a
 * group with few pieces leans on the others. A. Gelman et al., Bayesian Data Analysis, 3rd ed.
 * (2013), §5.3. The two hyperparameters are not plugged in: their posterior is summed over a grid
 * in logit mean and log(α + β), with the weakly informative prior p(α, β) ∝ (α + β)^(−5/2) of that
 * section (there 5.9), on α + β between 1 and a million: with no group but such as are all sound or
 * all spoiled the unbounded prior would have no proper posterior.
 */

import lnBeta from '@stdlib/math-base-special-betaln';
import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { logLikelihood, type Pattern, patterns, type Shapes, shapesOf } from './beta-binomial.ts';
import { CONFIDENCE, type Count, type Interval } from './interval.ts';

export interface EvenedOut extends Interval {
  /** Posterior mean. */
  readonly mean: number;
}

export interface GridPoint extends Shapes {
  readonly weight: number;
}

const LEAST_LOG_SUM = 0;
const MOST_LOG_SUM = Math.log(1e6);
/** Points whose log weight lies so far under the highest are left out. */
const NEGLIGIBLE = 9;
const ROWS = 16;
/** Spacing along the logit mean in posterior standard deviations: sums of smooth bells are exact to 1e-5 at this. */
const STEP = 1;
const MOST_STEPS = 24;
/** A limit leaves out its 2.5 % to within this. */
const CLOSE = 1e-4;

/** Log posterior density in (logit mean, log sum): with the Jacobian the prior is αβ(α + β)^(−5/2). */
function density(groups: readonly Pattern[], logit: number, logSum: number): number {
  const shapes = shapesOf(logit, logSum);
  return logLikelihood(groups, shapes) + Math.log(shapes.alpha) + Math.log(shapes.beta) - 2.5 * logSum;
}

interface Bell {
  readonly top: number;
  readonly height: number;
  readonly deviation: number;
}

/** The top over the logit mean at one log sum, by Newton's steps with differences, and its width. */
function bellAt(groups: readonly Pattern[], logSum: number, start: number): Bell {
  const h = 1e-3;
  let top = start;
  let bend = -1;
  for (let step = 0; step < 30; step++) {
    const [below, at, above] = [-h, 0, h].map((d) => density(groups, top + d, logSum)) as [
      number,
      number,
      number,
    ];
    const slope = (above - below) / (2 * h);
    bend = Math.min(-1e-3, (above - 2 * at + below) / (h * h));
    const move = Math.max(-1, Math.min(1, -slope / bend));
    top += move;
    if (Math.abs(move) < 1e-4) break;
  }
  return { top, height: density(groups, top, logSum), deviation: 1 / Math.sqrt(-bend) };
}

/** The range of log sums that weighs anything, from a coarse walk. */
function logSums(groups: readonly Pattern[], start: number): { rows: number[]; bells: Bell[] } {
  const walk = (from: number, to: number, count: number) => {
    const rows = Array.from({ length: count }, (_, n) => from + ((to - from) * n) / (count - 1));
    let before = start;
    const bells = rows.map((row) => {
      const bell = bellAt(groups, row, before);
      before = bell.top;
      return bell;
    });
    return { rows, bells };
  };
  const coarse = walk(LEAST_LOG_SUM, MOST_LOG_SUM, 36);
  const weights = coarse.bells.map((bell) => bell.height + Math.log(bell.deviation));
  const top = Math.max(...weights);
  const first = weights.findIndex((weight) => weight > top - NEGLIGIBLE);
  const last = weights.findLastIndex((weight) => weight > top - NEGLIGIBLE);
  return walk(coarse.rows[Math.max(0, first - 1)]!, coarse.rows[Math.min(35, last + 1)]!, ROWS);
}

/** The posterior of the two hyperparameters: shapes with weights that add up to 1. */
export function hyperPosterior(groups: readonly Count[]): GridPoint[] {
  const counted = patterns(groups.filter((group) => group.pieces > 0));
  const pieces = counted.reduce((sum, g) => sum + g.times * g.pieces, 0);
  const affected = counted.reduce((sum, g) => sum + g.times * g.affected, 0);
  const { rows, bells } = logSums(counted, Math.log((affected + 0.5) / (pieces - affected + 0.5)));
  const points: { shapes: Shapes; log: number }[] = [];
  for (const [n, row] of rows.entries()) {
    const { top, height, deviation } = bells[n]!;
    const edge = n === 0 || n === rows.length - 1 ? Math.LN2 : 0;
    const add = (step: number, log: number) =>
      points.push({
        shapes: shapesOf(top + step * STEP * deviation, row),
        log: log + Math.log(deviation) - edge,
      });
    add(0, height);
    for (const side of [-1, 1])
      for (let step = side; Math.abs(step) <= MOST_STEPS; step += side) {
        const log = density(counted, top + step * STEP * deviation, row);
        if (log < height - NEGLIGIBLE) break;
        add(step, log);
      }
  }
  const highest = points.reduce((most, { log }) => Math.max(most, log), Number.NEGATIVE_INFINITY);
  const kept = points.filter(({ log }) => log > highest - NEGLIGIBLE);
  const total = kept.reduce((sum, { log }) => sum + Math.exp(log - highest), 0);
  return kept.map(({ shapes, log }) => ({ ...shapes, weight: Math.exp(log - highest) / total }));
}

/** Posterior mean and equal-tailed interval of each group's rate, in the order given. */
export function evenedOut(groups: readonly Count[], confidence: number = CONFIDENCE): EvenedOut[] {
  if (groups.every((group) => group.pieces === 0)) return groups.map(() => ({ mean: 0.5, low: 0, high: 1 }));
  const points = hyperPosterior(groups);
  const found = new Map<string, EvenedOut>();
  return groups.map((group) => {
    const key = `${group.affected} ${group.pieces}`;
    const known = found.get(key) ?? evened(points, group, (1 - confidence) / 2);
    found.set(key, known);
    return known;
  });
}

function evened(points: readonly GridPoint[], { affected, pieces }: Count, tail: number): EvenedOut {
  const betas = points.map(({ alpha, beta, weight }) => ({
    a: alpha + affected,
    b: beta + pieces - affected,
    weight,
  }));
  let [mean, square] = [0, 0];
  for (const { a, b, weight } of betas) {
    const one = a / (a + b);
    mean += weight * one;
    square += (weight * one * (a + 1)) / (a + b + 1);
  }
  const sum = Math.max(1e-3, (mean * (1 - mean)) / Math.max(1e-300, square - mean * mean) - 1);
  const start = (p: number) => betaQuantile(p, mean * sum, (1 - mean) * sum);
  const mixture = betas.map((beta) => ({ ...beta, scale: Math.log(beta.weight) - lnBeta(beta.a, beta.b) }));
  return {
    mean,
    low: where(mixture, tail, start(tail)),
    high: where(mixture, 1 - tail, start(1 - tail)),
  };
}

type Mixture = readonly { a: number; b: number; weight: number; scale: number }[];

/** Where a mixture of betas reaches p: Newton's steps from a near guess, halved where they would leave the bracket. */
function where(mixture: Mixture, p: number, guess: number): number {
  let [low, high] = [0, 1];
  let x = Math.min(1 - 1e-12, Math.max(1e-12, guess));
  for (let step = 0; step < 60 && high - low > 1e-9; step++) {
    let [under, density] = [0, 0];
    const [lnX, lnRest] = [Math.log(x), Math.log1p(-x)];
    for (const { a, b, weight, scale } of mixture) {
      under += weight * betaCdf(x, a, b);
      density += Math.exp(scale + (a - 1) * lnX + (b - 1) * lnRest);
    }
    const miss = under - p;
    if (Math.abs(miss) < CLOSE) return x;
    if (miss < 0) low = x;
    else high = x;
    const next = x - miss / density;
    x = next > low && next < high ? next : (low + high) / 2;
  }
  return x;
}
