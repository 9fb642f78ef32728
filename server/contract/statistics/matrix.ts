/** The little linear algebra that the regressions need; matrices are arrays of rows. */

export type Matrix = readonly (readonly number[])[];

/** Lower triangle L with L·Lᵀ = a; undefined where `a` is not positive definite. */
export function cholesky(a: Matrix): number[][] | undefined {
  const size = a.length;
  const l = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      let sum = a[i]![j]!;
      for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!;
      if (i !== j) l[i]![j] = sum / l[j]![j]!;
      else if (sum > 1e-14 * a[i]![i]!) l[i]![i] = Math.sqrt(sum);
      else return undefined;
    }
  return l;
}

/** x with L·Lᵀ·x = b. */
export function solve(l: Matrix, b: readonly number[]): number[] {
  const size = l.length;
  const x = [...b];
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < i; k++) x[i]! -= l[i]![k]! * x[k]!;
    x[i]! /= l[i]![i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) x[i]! -= l[k]![i]! * x[k]!;
    x[i]! /= l[i]![i]!;
  }
  return x;
}

/** The inverse of L·Lᵀ. Symmetric. */
export const inverse = (l: Matrix): number[][] =>
  l.map((_, n) =>
    solve(
      l,
      l.map((__, k) => (k === n ? 1 : 0)),
    ),
  );

export const logDeterminant = (l: Matrix): number =>
  2 * l.reduce((sum, row, n) => sum + Math.log(row[n]!), 0);

/** Rank of columns by Gram-Schmidt, each compared with its own length before. */
export function rank(columns: Matrix): number {
  const base: number[][] = [];
  for (const column of columns) {
    const length = Math.hypot(...column);
    let left = [...column];
    // Twice is enough: L. Giraud et al., Comput. Math. Appl. 50 (2005) 1069–1075.
    for (let pass = 0; pass < 2; pass++)
      for (const unit of base) {
        const along = unit.reduce((sum, u, n) => sum + u * left[n]!, 0);
        left = left.map((value, n) => value - along * unit[n]!);
      }
    const rest = Math.hypot(...left);
    if (length > 0 && rest > 1e-9 * length) base.push(left.map((value) => value / rest));
  }
  return base.length;
}
