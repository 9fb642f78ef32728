/** A traced outline as few clean curves: sharp where the paper is sharp, and within a tolerance of what was traced. */
import fitCurve from 'fit-curve';
import type { Point } from '../piece.ts';
import { distance, lengthOf } from '../shape/measure.ts';

/** mm between points once the tracing's small steps are evened out. */
const STEP = 0.75;
/** mm to either side over which a turn is felt. */
const FEEL = 4;
/** Degrees of turn that make a corner. */
const CORNER = 32;

/** @param tolerance mm; @returns SVG path data in mm, closed */
export function cleanPath(outline: readonly Point[], tolerance = 0.2): string {
  const even = evened(outline);
  const corners = cornersOf(even);
  const splits = corners.length >= 2 ? corners : quarters(even, corners[0] ?? 0);
  const sharp = new Set(corners);
  const ends = splits.map((at) => (sharp.has(at) ? sharpened(even, at) : even[at]!));
  const parts = splits.map((from, at) => {
    const to = splits[(at + 1) % splits.length]!;
    const between = stretch(even, from, to).slice(1, -1);
    // The tracing is round where the paper is sharp; what lies that near a corner is not asked.
    const clear = between.filter(
      (point) =>
        (!sharp.has(from) || distance(point, even[from]!) > FEEL / 3) &&
        (!sharp.has(to) || distance(point, even[to]!) > FEEL / 3),
    );
    return [ends[at]!, ...clear, ends[(at + 1) % ends.length]!];
  });
  const curves = parts.flatMap((part) => curvesThrough(part, tolerance));
  return `M${written(parts[0]![0]!)}${curves.map(([, b, c, d]) => `C${[b!, c!, d!].map(written).join(' ')}`).join('')}Z`;
}

const written = ([x, y]: Point): string => `${Number(x.toFixed(3))} ${Number(y.toFixed(3))}`;

/** Cubics through the points, the squared distance from them below the square of the tolerance (Schneider 1990). */
function curvesThrough(points: readonly Point[], tolerance: number): Point[][] {
  const fitted = fitCurve(
    points.map(([x, y]) => [x, y]),
    tolerance * tolerance,
  );
  if (fitted.length > 0) return fitted as unknown as Point[][];
  return [[points[0]!, points[0]!, points.at(-1)!, points.at(-1)!]];
}

/** Points at even steps along a closed line, each the mean of its neighbourhood. */
function evened(outline: readonly Point[]): Point[] {
  const whole = lengthOf(outline, true);
  const many = Math.max(24, Math.round(whole / STEP));
  const out: Point[] = [];
  let [at, gone] = [0, 0];
  for (let step = 0; step < many; step++) {
    const wanted = (whole * step) / many;
    let long = distance(outline[at % outline.length]!, outline[(at + 1) % outline.length]!);
    while (gone + long < wanted && at < 2 * outline.length) {
      gone += long;
      at++;
      long = distance(outline[at % outline.length]!, outline[(at + 1) % outline.length]!);
    }
    const [a, b] = [outline[at % outline.length]!, outline[(at + 1) % outline.length]!];
    const share = long === 0 ? 0 : (wanted - gone) / long;
    out.push([a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share]);
  }
  return out.map((point, here) => {
    const [before, after] = [out[(here + many - 1) % many]!, out[(here + 1) % many]!];
    return [(before[0] + 2 * point[0] + after[0]) / 4, (before[1] + 2 * point[1] + after[1]) / 4];
  });
}

const wrap = (at: number, many: number): number => ((at % many) + many) % many;

function stretch(points: readonly Point[], from: number, to: number): Point[] {
  const many = wrap(to - from, points.length) || points.length;
  return Array.from({ length: many + 1 }, (_, at) => points[wrap(from + at, points.length)]!);
}

/** Degrees between the ways in and out of a point. */
function turnAt(points: readonly Point[], at: number): number {
  const reach = Math.round(FEEL / STEP);
  const [a, b, c] = [-reach, 0, reach].map((by) => points[wrap(at + by, points.length)]!);
  const turn = Math.atan2(c![1] - b![1], c![0] - b![0]) - Math.atan2(b![1] - a![1], b![0] - a![0]);
  return Math.abs((Math.atan2(Math.sin(turn), Math.cos(turn)) * 180) / Math.PI);
}

/** Points that turn more than their neighbours, and enough. */
function cornersOf(points: readonly Point[]): number[] {
  const turns = points.map((_, at) => turnAt(points, at));
  const reach = Math.round(FEEL / STEP);
  return turns.flatMap((turn, at) => {
    if (turn < CORNER) return [];
    for (let by = -reach; by <= reach; by++) {
      const other = turns[wrap(at + by, turns.length)]!;
      if (other > turn || (other === turn && by < 0)) return [];
    }
    return [at];
  });
}

/** Where the straight runs to either side would meet: the tracing cuts a corner short. */
function sharpened(points: readonly Point[], at: number): Point {
  const run = (sign: 1 | -1) => {
    const [near, far] = [FEEL / 2, 1.5 * FEEL].map(
      (mm) => points[wrap(at + sign * Math.round(mm / STEP), points.length)]!,
    );
    return { near: near!, along: [near![0] - far![0], near![1] - far![1]] as Point };
  };
  const [before, after] = [run(-1), run(1)];
  const cross = before.along[0] * after.along[1] - before.along[1] * after.along[0];
  const here = points[at]!;
  if (Math.abs(cross) < 1e-9) return here;
  const [dx, dy] = [after.near[0] - before.near[0], after.near[1] - before.near[1]];
  const share = (dx * after.along[1] - dy * after.along[0]) / cross;
  const met: Point = [before.near[0] + before.along[0] * share, before.near[1] + before.along[1] * share];
  return distance(met, here) < FEEL ? met : here;
}

const quarters = (points: readonly Point[], from: number): number[] =>
  [0, 1, 2, 3].map((quarter) => wrap(from + Math.round((points.length * quarter) / 4), points.length));
