/** The name of its size on each line of a nest: on every page that shows the line, where most room is about it. */
import type { Piece, Point } from '../piece.ts';
import type { Window } from '../shape/clip.ts';
import { toOutline } from '../shape/inside.ts';
import type { SizeLabel } from './sheet.ts';

const LETTERS = 2.2;
/** mm from the window's edge, where half of a label would be cut off. */
const EDGE = 9;
/** Places looked at along an outline. */
const STOPS = 90;

export function sizeLabels(nest: Piece, window: Window): SizeLabel[] {
  const sizes = [nest, ...(nest.within ?? [])];
  if (sizes.length < 2) return [];
  return sizes.flatMap((piece, at) => {
    const others = sizes.filter((other) => other !== piece).map(({ outline }) => outline);
    return [...onOutline(piece, others, window), ...onLines(piece, at, sizes.length, window)];
  });
}

function onOutline(piece: Piece, others: readonly (readonly Point[])[], window: Window): SizeLabel[] {
  let best: { at: Point; along: Point; room: number } | undefined;
  for (const stop of stopsOf(piece.outline)) {
    if (!shownIn(window, stop.at)) continue;
    const room = Math.min(...others.map((other) => toOutline(other, stop.at)));
    if (!best || room > best.room + 1e-6) best = { ...stop, room };
  }
  return best ? [labelOf(piece, best.at, best.along)] : [];
}

/** Folds and bevels of several sizes lie side by side: each names its size, at another height than its neighbours. */
function onLines(piece: Piece, nth: number, of: number, window: Window): SizeLabel[] {
  return piece.lines.flatMap(({ pen, points, closed }) => {
    const [a, b] = [points[0], points.at(-1)];
    if (pen === 'mark' || closed || !a || !b || points.length > 2) return [];
    const share = (nth + 1) / (of + 1);
    const at: Point = [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
    return shownIn(window, at) ? [labelOf(piece, at, [b[0] - a[0], b[1] - a[1]])] : [];
  });
}

const shownIn = ({ left, top, width, height }: Window, [x, y]: Point): boolean =>
  x >= left + EDGE && y >= top + EDGE && x <= left + width - EDGE && y <= top + height - EDGE;

function labelOf(piece: Piece, at: Point, [dx, dy]: Point): SizeLabel {
  const degrees = (Math.atan2(dy, dx) * 180) / Math.PI;
  // Never upside down.
  const turn = degrees > 90 ? degrees - 180 : degrees <= -90 ? degrees + 180 : degrees;
  return { text: piece.inSet!.size, at, turn, size: LETTERS };
}

/** Even steps along a closed line, each with the way the line runs there. */
function stopsOf(outline: readonly Point[]): { at: Point; along: Point }[] {
  const lengths = outline.map((a, at) => {
    const b = outline[(at + 1) % outline.length]!;
    return Math.hypot(b[0] - a[0], b[1] - a[1]);
  });
  const step = lengths.reduce((sum, long) => sum + long, 0) / STOPS;
  const stops: { at: Point; along: Point }[] = [];
  let next = step / 2;
  let gone = 0;
  outline.forEach((a, at) => {
    const b = outline[(at + 1) % outline.length]!;
    const along: Point = [b[0] - a[0], b[1] - a[1]];
    for (; next <= gone + lengths[at]!; next += step) {
      const share = (next - gone) / lengths[at]!;
      stops.push({ at: [a[0] + along[0] * share, a[1] + along[1] * share], along });
    }
    gone += lengths[at]!;
  });
  return stops;
}
