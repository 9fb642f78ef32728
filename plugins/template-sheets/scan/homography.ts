/**
 * From a picture to the table it shows. Four points of a plane and their places in the picture fix the projective map
 * between them (Hartley and Zisserman, Multiple View Geometry, 2nd ed., 4.1): eight equations for eight unknowns.
 */
import type { Point } from '../piece.ts';

/** Row by row; the last entry is 1. */
export type Homography = readonly number[];

export const mapped = (h: Homography, [x, y]: Point): Point => {
  const w = h[6]! * x + h[7]! * y + 1;
  return [(h[0]! * x + h[1]! * y + h[2]!) / w, (h[3]! * x + h[4]! * y + h[5]!) / w];
};

/** The map that takes each of four points to its fellow; undefined where three of them lie in a line. */
export function fromFour(from: readonly Point[], to: readonly Point[]): Homography | undefined {
  const rows = from.flatMap(([x, y], at) => {
    const [u, v] = to[at]!;
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ];
  });
  const solved = solve(rows);
  return solved && [...solved, 1];
}

/** Even scale and turn: for a picture taken straight from above, or a scan. `length` is the distance in mm. */
export function fromTwo([a, b]: readonly [Point, Point], length: number): Homography {
  const scale = length / Math.hypot(b[0] - a[0], b[1] - a[1]);
  return [scale, 0, -a[0] * scale, 0, scale, -a[1] * scale, 0, 0, 1];
}

/** Gauss, with the largest pivot; each row's last number is its right-hand side. */
function solve(rows: number[][]): number[] | undefined {
  const many = rows.length;
  const largest = Math.max(...rows.flat().map(Math.abs));
  for (let column = 0; column < many; column++) {
    let pivot = column;
    for (let row = column; row < many; row++)
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    const lead = rows[column]!;
    if (Math.abs(lead[column]!) < largest * 1e-13) return undefined;
    for (const row of rows) {
      if (row === lead) continue;
      const by = row[column]! / lead[column]!;
      for (let at = column; at <= many; at++) row[at] = row[at]! - by * lead[at]!;
    }
  }
  return rows.map((row, at) => row[many]! / row[at]!);
}
