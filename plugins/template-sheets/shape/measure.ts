/** Lengths, areas and boxes of polylines and polygons; mm. */
import type { Point } from '../piece.ts';

export const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

export function lengthOf(points: readonly Point[], closed = false): number {
  let sum = 0;
  for (let at = 1; at < points.length; at++) sum += distance(points[at - 1]!, points[at]!);
  return closed && points.length > 1 ? sum + distance(points.at(-1)!, points[0]!) : sum;
}

/** Area with a sign: positive where the points run clockwise as seen on paper (y down). */
export function signedArea(polygon: readonly Point[]): number {
  const [ox, oy] = polygon[0] ?? [0, 0];
  let twice = 0;
  for (let at = 0; at < polygon.length; at++) {
    const [ax, ay] = polygon[at]!;
    const [bx, by] = polygon[(at + 1) % polygon.length]!;
    twice += (ax - ox) * (by - oy) - (bx - ox) * (ay - oy);
  }
  return twice / 2;
}

export const areaOf = (polygon: readonly Point[]): number => Math.abs(signedArea(polygon));

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function boxOf(points: readonly Point[]): Box {
  let left = Number.POSITIVE_INFINITY;
  let top = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  let bottom = Number.NEGATIVE_INFINITY;
  for (const [x, y] of points) {
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < top) top = y;
    if (y > bottom) bottom = y;
  }
  return { left, top, right, bottom };
}

export const widthOf = (box: Box): number => box.right - box.left;
export const heightOf = (box: Box): number => box.bottom - box.top;
