/**
 * The rim of a wall piece with its joint. A bevelled joint is a scarf: both ends run half its width past the true
 * edge, and are pared from a line half its width before it. A butted end with an allowance has all of it at one end,
 * to be trimmed at the true edge when it fits.
 */
import type { Line, Point } from '../piece.ts';
import { distance } from '../shape/measure.ts';
import type { Seam } from '../spec/wall.ts';

/** A wall laid flat: its two rims from left to right. The ends of the rims are joined by the two seams. */
export interface Flat {
  readonly top: readonly Point[];
  readonly bottom: readonly Point[];
}

export interface Joined {
  readonly outline: readonly Point[];
  readonly lines: readonly Line[];
}

/** The two points moved square to the line between them: to its right as seen from `from`, y down. */
function beside(from: Point, to: Point, by: number): readonly [Point, Point] {
  const long = distance(from, to) || 1;
  const nx = (-(to[1] - from[1]) / long) * by;
  const ny = ((to[0] - from[0]) / long) * by;
  return [
    [from[0] + nx, from[1] + ny],
    [to[0] + nx, to[1] + ny],
  ];
}

export function joined({ top, bottom }: Flat, seam: Seam): Joined {
  const { allowance, joint } = seam;
  const left = [top[0]!, bottom[0]!] as const;
  const right = [top.at(-1)!, bottom.at(-1)!] as const;
  const onLeft = joint === 'bevel' ? allowance / 2 : 0;
  const onRight = joint === 'bevel' ? allowance / 2 : allowance;
  const outLeft = onLeft ? beside(left[0], left[1], onLeft) : [];
  const outRight = onRight ? beside(right[0], right[1], -onRight) : [];
  const outline = [
    ...(outLeft.length ? [outLeft[0]!] : []),
    ...top,
    ...outRight,
    ...[...bottom].reverse(),
    ...(outLeft.length ? [outLeft[1]!] : []),
  ];
  const lines: Line[] = [];
  if (joint === 'bevel' && allowance > 0)
    lines.push(bevelLine(left, right, -allowance / 2), bevelLine(right, left, allowance / 2));
  if (joint === 'butt' && allowance > 0) lines.push({ pen: 'mark', points: right });
  return { outline: withoutTwins(outline), lines };
}

/** The line that the bevel is pared from, ending where it would run over the other end of a pointed pattern. */
function bevelLine(edge: readonly [Point, Point], other: readonly [Point, Point], by: number): Line {
  const [a, b] = beside(edge[0], edge[1], by);
  const gap = distance(edge[0], other[0]);
  const gapBelow = distance(edge[1], other[1]);
  const need = 2 * Math.abs(by);
  if (gap >= need && gapBelow >= need) return { pen: 'bevel', points: [a, b] };
  const widest = Math.max(gap, gapBelow);
  const share = widest <= need ? 1 : (need - Math.min(gap, gapBelow)) / (widest - Math.min(gap, gapBelow));
  const [from, to] = gap < gapBelow ? [a, b] : [b, a];
  const start: Point = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
  return { pen: 'bevel', points: [start, to] };
}

/** Points that lie on the one before them (a cone's apex, an end without allowance) would be edges of no length. */
export function withoutTwins(points: readonly Point[]): Point[] {
  const kept: Point[] = [];
  for (const point of points) if (kept.length === 0 || distance(kept.at(-1)!, point) > 1e-9) kept.push(point);
  while (kept.length > 1 && distance(kept[0]!, kept.at(-1)!) <= 1e-9) kept.pop();
  return kept;
}
