/** Logistic regression by maximum likelihood on grouped counts. */
import { cholesky, inverse, type Matrix, solve } from './matrix.ts';

/** `affected` of `pieces` with the same covariates; `x` starts with 1 for the intercept. */
export interface Cell {
  readonly x: readonly number[];
  readonly affected: number;
  readonly pieces: number;
}

export interface Fit {
  readonly coefficients: readonly number[];
  readonly errors: readonly number[];
  readonly deviance: number;
}

/** Log odds beyond which a coefficient is taken to run away: the outcome is separated. */
const RUNAWAY = 25;

export const linear = (x: readonly number[], coefficients: readonly number[]): number => {
  let sum = 0;
  for (let n = 0; n < x.length; n++) sum += x[n]! * coefficients[n]!;
  return sum;
};

/** log(1 + eˣ) without overflow. */
const softplus = (x: number): number => (x > 0 ? x + Math.log1p(Math.exp(-x)) : Math.log1p(Math.exp(x)));

export const logLikelihood = (cells: readonly Cell[], coefficients: readonly number[]): number =>
  cells.reduce((sum, { x, affected, pieces }) => {
    const eta = linear(x, coefficients);
    return sum + affected * eta - pieces * softplus(eta);
  }, 0);

/** Fisher's information with the fitted rates. */
export function information(cells: readonly Cell[], coefficients: readonly number[]) {
  const size = coefficients.length;
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const rates: number[] = [];
  for (const { x, pieces } of cells) {
    const rate = 1 / (1 + Math.exp(-linear(x, coefficients)));
    rates.push(rate);
    const weight = pieces * rate * (1 - rate);
    for (let i = 0; i < size; i++) for (let j = 0; j < size; j++) matrix[i]![j]! += weight * x[i]! * x[j]!;
  }
  return { matrix: matrix as Matrix, rates };
}

/** Log likelihood of a model that hits every cell's own rate. */
const saturated = (cells: readonly Cell[]): number =>
  cells.reduce((sum, { affected, pieces }) => {
    const part = (k: number) => (k === 0 ? 0 : k * Math.log(k / pieces));
    return sum + part(affected) + part(pieces - affected);
  }, 0);

/** Undefined where there is no finite answer: columns depend on each other, or the outcome is separated (see firth.ts). */
export function logistic(cells: readonly Cell[]): Fit | undefined {
  let coefficients = new Array<number>(cells[0]?.x.length ?? 0).fill(0);
  for (let step = 0; step < 60; step++) {
    const { matrix, rates } = information(cells, coefficients);
    const root = cholesky(matrix);
    if (!root) return undefined;
    const score = coefficients.map((_, i) =>
      cells.reduce((sum, cell, n) => sum + (cell.affected - cell.pieces * rates[n]!) * cell.x[i]!, 0),
    );
    const move = solve(root, score);
    coefficients = coefficients.map((b, i) => b + move[i]!);
    if (cells.some(({ x }) => Math.abs(linear(x, coefficients)) > RUNAWAY)) return undefined;
    if (Math.max(...move.map(Math.abs)) > 1e-10) continue;
    const deviance = 2 * (saturated(cells) - logLikelihood(cells, coefficients));
    return { coefficients, errors: inverse(root).map((row, i) => Math.sqrt(row[i]!)), deviance };
  }
  return undefined;
}
