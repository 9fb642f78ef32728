/** Lines cut off at a window (Liang and Barsky 1984). */
import type { Point } from '../piece.ts';

export interface Window {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The part of a stretch within the window, as shares of its length. */
function within(
  a: Point,
  b: Point,
  { left, top, width, height }: Window,
): readonly [number, number] | undefined {
  let from = 0;
  let to = 1;
  const limits = [
    [a[0] - b[0], a[0] - left],
    [b[0] - a[0], left + width - a[0]],
    [a[1] - b[1], a[1] - top],
    [b[1] - a[1], top + height - a[1]],
  ] as const;
  for (const [towards, room] of limits) {
    if (towards === 0 && room < 0) return undefined;
    if (towards === 0) continue;
    const share = room / towards;
    if (towards < 0) from = Math.max(from, share);
    else to = Math.min(to, share);
    if (from > to) return undefined;
  }
  return [from, to];
}

const on = (a: Point, b: Point, share: number): Point =>
  share === 0 ? a : share === 1 ? b : [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];

/** A line's parts within the window. A closed line wholly within comes back as it is, `closed` still. */
export function clipped(
  points: readonly Point[],
  closed: boolean,
  window: Window,
): { readonly points: readonly Point[]; readonly closed: boolean }[] {
  const parts: Point[][] = [];
  const stretches = closed ? points.length : points.length - 1;
  let whole = true;
  let going = false;
  for (let at = 0; at < stretches; at++) {
    const [a, b] = [points[at]!, points[(at + 1) % points.length]!];
    const share = within(a, b, window);
    if (!share || (share[0] === share[1] && a !== b)) {
      whole = false;
      going = false;
      continue;
    }
    if (!going || share[0] > 0) parts.push([on(a, b, share[0])]);
    parts.at(-1)!.push(on(a, b, share[1]));
    going = share[1] === 1;
    if (share[0] > 0 || share[1] < 1) whole = false;
  }
  if (closed && whole) return [{ points, closed: true }];
  return closeUp(parts, points, closed).map((part) => ({ points: part, closed: false }));
}

/** Where the line was cut open at its first point, its last part runs on into the first. */
function closeUp(parts: Point[][], points: readonly Point[], closed: boolean): Point[][] {
  const [first, last] = [parts[0], parts.at(-1)];
  if (!closed || !first || !last || first === last) return parts;
  if (first[0] !== points[0] || last.at(-1) !== points[0]) return parts;
  return [[...last, ...first.slice(1)], ...parts.slice(1, -1)];
}
