/**
 * Logistic regression with Firth's penalty, which stays finite where a glaze never or always spoils:
 * D. Firth, Biometrika 80 (1993) 27–38; profile limits as in G. Heinze and M. Schemper,
 * Stat. Med. 21 (2002) 2409–2419. Takes the pieces as independent.
 */
import chisquareQuantile from '@stdlib/stats-base-dists-chisquare-quantile';
import { CONFIDENCE, type Interval } from './interval.ts';
import { type Cell, information, logLikelihood } from './logistic.ts';
import { cholesky, inverse, logDeterminant, solve } from './matrix.ts';

export interface FirthFit {
  readonly coefficients: readonly number[];
  readonly errors: readonly number[];
  readonly penalised: number;
}

function penalised(cells: readonly Cell[], coefficients: readonly number[]): number {
  const root = cholesky(information(cells, coefficients).matrix);
  return root ? logLikelihood(cells, coefficients) + logDeterminant(root) / 2 : Number.NEGATIVE_INFINITY;
}

/** The score with each cell's residual corrected by its leverage. */
function step(cells: readonly Cell[], coefficients: readonly number[], held: number | undefined) {
  const { matrix, rates } = information(cells, coefficients);
  const root = cholesky(matrix);
  if (!root) return undefined;
  const covariance = inverse(root);
  const residual = cells.map(({ x, affected, pieces }, n) => {
    const rate = rates[n]!;
    let leverage = 0;
    for (let i = 0; i < x.length; i++)
      for (let j = 0; j < x.length; j++) leverage += x[i]! * covariance[i]![j]! * x[j]!;
    leverage *= pieces * rate * (1 - rate);
    return affected - pieces * rate + leverage * (0.5 - rate);
  });
  const free = coefficients.map((_, i) => i).filter((i) => i !== held);
  const score = free.map((i) => cells.reduce((sum, cell, n) => sum + residual[n]! * cell.x[i]!, 0));
  const inner = cholesky(free.map((i) => free.map((j) => matrix[i]![j]!)));
  if (!inner) return undefined;
  const moved = solve(inner, score);
  const move = coefficients.map(() => 0);
  for (const [n, i] of free.entries()) move[i] = moved[n]!;
  return { move, covariance };
}

/** Climbs with all coefficients, or with one held where it starts. */
function climb(cells: readonly Cell[], start: readonly number[], held?: number): FirthFit | undefined {
  let coefficients = [...start];
  let value = penalised(cells, coefficients);
  for (let round = 0; round < 200; round++) {
    const next = step(cells, coefficients, held);
    if (!next) return undefined;
    const largest = Math.max(...next.move.map(Math.abs));
    if (largest < 1e-10)
      return {
        coefficients,
        errors: next.covariance.map((row, i) => Math.sqrt(row[i]!)),
        penalised: value,
      };
    let scale = Math.min(1, 5 / largest);
    let tried = value;
    let at = coefficients;
    for (let half = 0; half < 20; half++, scale /= 2) {
      at = coefficients.map((b, i) => b + scale * next.move[i]!);
      tried = penalised(cells, at);
      if (tried >= value - 1e-12) break;
    }
    [coefficients, value] = [at, tried];
  }
  return undefined;
}

/** Undefined where columns depend on each other: ask `aliased` first, which names them. */
export const firth = (cells: readonly Cell[]): FirthFit | undefined =>
  climb(cells, new Array<number>(cells[0]?.x.length ?? 0).fill(0));

/**
 * Where a function falls through 0 between two places, by false position with the Illinois step
 * (M. Dowell and P. Jarratt, BIT 11 (1971) 168–174), which halves the value of an end that stays.
 */
function crossing(f: (x: number) => number, near: number, far: number): number {
  let [x0, x1] = [near, far];
  let [f0, f1] = [f(near), f(far)];
  for (let round = 0; round < 60 && Math.abs(x1 - x0) > 1e-7; round++) {
    const x = x1 - (f1 * (x1 - x0)) / (f1 - f0);
    const value = f(x);
    if (Math.abs(value) < 1e-9) return x;
    if (value * f1 < 0) [x0, f0] = [x1, f1];
    else f0 /= 2;
    [x1, f1] = [x, value];
  }
  return x1;
}

/**
 * Limits of one coefficient: where the penalised likelihood, all others fitted anew, has fallen by
 * half the χ² quantile. Infinite on a side where it never falls so far.
 */
export function profileLimits(
  cells: readonly Cell[],
  fit: FirthFit,
  which: number,
  confidence: number = CONFIDENCE,
): Interval {
  const target = fit.penalised - chisquareQuantile(confidence, 1) / 2;
  const limit = (side: number): number => {
    let others: readonly number[] = fit.coefficients;
    const above = (value: number): number => {
      const start = others.map((b, i) => (i === which ? value : b));
      const held = climb(cells, start, which);
      if (!held) return Number.NaN;
      others = held.coefficients;
      return held.penalised - target;
    };
    let near = fit.coefficients[which]!;
    let far = near + side * 2 * fit.errors[which]!;
    for (let round = 0; above(far) > 0; round++) {
      if (round > 12) return side * Number.POSITIVE_INFINITY;
      [near, far] = [far, far + (far - near) * 1.5];
    }
    return crossing(above, near, far);
  };
  return { low: limit(-1), high: limit(1) };
}
