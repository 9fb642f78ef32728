/** Points within a polygon. */
import type { Point } from '../piece.ts';
import { boxOf, heightOf, widthOf } from './measure.ts';

/** By the number of times a ray crosses the outline. */
export function inside(polygon: readonly Point[], [x, y]: Point): boolean {
  let within = false;
  for (let at = 0, before = polygon.length - 1; at < polygon.length; before = at++) {
    const [ax, ay] = polygon[at]!;
    const [bx, by] = polygon[before]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) within = !within;
  }
  return within;
}

function toSegment(a: Point, b: Point, [x, y]: Point): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.max(0, Math.min(1, ((x - a[0]) * dx + (y - a[1]) * dy) / square));
  return Math.hypot(x - a[0] - share * dx, y - a[1] - share * dy);
}

export function toOutline(polygon: readonly Point[], point: Point): number {
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at < polygon.length; at++)
    least = Math.min(least, toSegment(polygon[at]!, polygon[(at + 1) % polygon.length]!, point));
  return least;
}

/** Of an open line. */
export function toLine(points: readonly Point[], point: Point): number {
  let least = Number.POSITIVE_INFINITY;
  for (let at = 0; at + 1 < points.length; at++)
    least = Math.min(least, toSegment(points[at]!, points[at + 1]!, point));
  return least;
}

const STEPS = 16;
/** Points that show a line well enough: a rim of thousands would make this slow. */
const ENOUGH = 200;
/** mm from which on more room is no better. */
const PLENTY = 25;

const thinned = (points: readonly Point[]): readonly Point[] => {
  const every = Math.max(1, Math.floor(points.length / ENOUGH));
  return points.filter((_, at) => at % every === 0 || at === points.length - 1);
};

/**
 * The point of a grid that is farthest within the outline and from the lines: where there is most room for a name.
 * @param room mm that there are about a point for other reasons; below 0 where it will not do
 */
export function roomiest(
  polygon: readonly Point[],
  lines: readonly (readonly Point[])[] = [],
  room: (at: Point) => number = () => PLENTY,
): { readonly at: Point; readonly room: number } {
  const box = boxOf(polygon);
  const rim = thinned(polygon);
  const others = lines.map(thinned);
  let best = { at: [(box.left + box.right) / 2, (box.top + box.bottom) / 2] as Point, room: 0 };
  for (let column = 1; column < STEPS; column++)
    for (let row = 1; row < STEPS; row++) {
      const at: Point = [box.left + (widthOf(box) * column) / STEPS, box.top + (heightOf(box) * row) / STEPS];
      const most = Math.min(PLENTY, room(at));
      if (most <= best.room || !inside(rim, at)) continue;
      const here = Math.min(most, toOutline(rim, at), ...others.map((line) => toLine(line, at)));
      if (here > best.room + 1e-9) best = { at, room: here };
    }
  return best;
}
