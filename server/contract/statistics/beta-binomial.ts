/** Rates that differ from group to group: the beta-binomial model and its fit by maximum likelihood. */
import lnGamma from '@stdlib/math-base-special-gammaln';
import type { Count } from './interval.ts';

/** Shapes of the beta distribution that the groups' rates are drawn from. */
export interface Shapes {
  readonly alpha: number;
  readonly beta: number;
}

/** Groups with the same counts, told once. */
export interface Pattern extends Count {
  readonly times: number;
}

export function patterns(groups: readonly Count[]): Pattern[] {
  const found = new Map<string, { affected: number; pieces: number; times: number }>();
  for (const { affected, pieces } of groups) {
    const key = `${affected} ${pieces}`;
    const same = found.get(key);
    if (same) same.times++;
    else found.set(key, { affected, pieces, times: 1 });
  }
  return [...found.values()];
}

/** Log likelihood without the binomial coefficients, which no parameter touches. */
export function logLikelihood(groups: readonly Pattern[], { alpha, beta }: Shapes): number {
  const none = lnGamma(alpha) + lnGamma(beta) - lnGamma(alpha + beta);
  let sum = 0;
  for (const { affected, pieces, times } of groups) {
    const some =
      lnGamma(affected + alpha) + lnGamma(pieces - affected + beta) - lnGamma(pieces + alpha + beta);
    sum += times * (some - none);
  }
  return sum;
}

/** The binomial coefficients' part of the log likelihood. */
export const logCoefficients = (groups: readonly Pattern[]): number =>
  groups.reduce(
    (sum, { affected, pieces, times }) =>
      sum + times * (lnGamma(pieces + 1) - lnGamma(affected + 1) - lnGamma(pieces - affected + 1)),
    0,
  );

export const expit = (x: number): number => 1 / (1 + Math.exp(-x));

/** Shapes from the logit of their mean and the log of their sum. */
export const shapesOf = (logitMean: number, logSum: number): Shapes => {
  const sum = Math.exp(logSum);
  return { alpha: sum * expit(logitMean), beta: sum * expit(-logitMean) };
};

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Where a function with one top is highest between two ends. */
function highest(f: (x: number) => number, from: number, to: number): { x: number; value: number } {
  let [low, high] = [from, to];
  let [x1, x2] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [f1, f2] = [f(x1), f(x2)];
  while (high - low > 1e-8) {
    if (f1 < f2) {
      [low, x1, f1] = [x1, x2, f2];
      x2 = low + GOLDEN * (high - low);
      f2 = f(x2);
    } else {
      [high, x2, f2] = [x2, x1, f1];
      x1 = high - GOLDEN * (high - low);
      f1 = f(x1);
    }
  }
  return { x: (low + high) / 2, value: f((low + high) / 2) };
}

/**
 * Maximum likelihood, searched in logit mean and log sum (up to a sum of about three million, which is
 * to say: groups that do not differ). A checked building block: the reports integrate
 * over the shapes instead of plugging one pair in (evened-out.ts).
 */
export function maximumLikelihood(groups: readonly Count[]): Shapes & { readonly logLikelihood: number } {
  const counted = patterns(groups);
  const mean = (logSum: number) =>
    highest((logit) => logLikelihood(counted, shapesOf(logit, logSum)), -12, 12);
  const sum = highest((logSum) => mean(logSum).value, -4, 15).x;
  const shapes = shapesOf(mean(sum).x, sum);
  return { ...shapes, logLikelihood: logLikelihood(counted, shapes) + logCoefficients(counted) };
}

/** Shapes with a given mean and standard deviation of the rates. */
export function byMoments(mean: number, deviation: number): Shapes {
  const sum = (mean * (1 - mean)) / deviation ** 2 - 1;
  return { alpha: mean * sum, beta: (1 - mean) * sum };
}
