/**
 * A pot on an elliptic plan. Its wall is as long as the ellipse: P = 4a E(e), the complete elliptic integral of the
 * second kind by the arithmetic-geometric mean (Abramowitz and Stegun 17.6). Curves parallel to it at a distance d are
 * longer by 2πd (Steiner), as long as d stays within the least radius of curvature b²/a.
 */
import type { Development, Point } from '../piece.ts';
import { traced } from '../shape/arc.ts';
import type { Of } from '../spec/spec.ts';
import { baseOf, seamOf, wallOf } from '../spec/wall.ts';
import { CannotBe, tooThick } from './cannot-be.ts';
import { type Plan, planBase } from './plan-base.ts';
import { strip } from './strip.ts';

/** @param a and b half axes, mm */
export function ellipsePerimeter(a: number, b: number): number {
  const [long, short] = a >= b ? [a, b] : [b, a];
  let [mean, root, sum] = [long, short, 0];
  let gap = Math.sqrt(Math.max(0, long * long - short * short));
  for (let power = 0.5; gap > long * 1e-15; power *= 2) {
    sum += power * gap * gap;
    [mean, root, gap] = [(mean + root) / 2, Math.sqrt(mean * root), (mean - root) / 2];
  }
  return ((2 * Math.PI) / mean) * (long * long - sum);
}

export function oval(spec: Of<'oval'>): Development {
  const wall = wallOf(spec);
  const kind = baseOf(spec.base);
  const [a, b] = [spec.length / 2, spec.width / 2];
  const plan = planOf(a, b, wall.toMiddle);
  const least = Math.min(a, b) ** 2 / Math.max(a, b);
  const deepest = wall.toMiddle - (kind === 'inside' ? wall.thick / 2 : 0);
  if (-deepest >= least)
    throw new CannotBe(
      `“thickness” is too much for the ends of this oval, which turn on a radius of ${least.toFixed(1)} mm.`,
    );
  const height = kind === 'under' ? spec.height - wall.thick : spec.height;
  if (height <= 0) throw tooThick('height');
  const length = plan.perimeter(0);
  const quarters = [1, 2, 3].map((quarter) => ({ at: (length * quarter) / 4, pen: 'mark' as const }));
  return {
    pieces: [
      strip(length, height, seamOf(spec.seam, wall), quarters, kind !== 'none'),
      ...planBase(plan, kind, wall),
    ],
    facts: { area: length * height, volume: height * areaAt(a, b, wall.toMiddle) },
  };
}

/** Area within the curve parallel to the ellipse at a distance d: A + P d + π d². */
const areaAt = (a: number, b: number, d: number): number =>
  Math.PI * a * b + ellipsePerimeter(a, b) * d + Math.PI * d * d;

function planOf(a: number, b: number, toMiddle: number): Plan {
  const outline = (out: number): Point[] =>
    traced(
      (t) => {
        const [cos, sin] = [Math.cos(t), Math.sin(t)];
        const long = Math.hypot(b * cos, a * sin);
        const by = toMiddle + out;
        return [(a + (by * b) / long) * cos, (b + (by * a) / long) * sin];
      },
      0,
      2 * Math.PI,
    ).slice(0, -1);
  return { outline, perimeter: (out) => ellipsePerimeter(a, b) + 2 * Math.PI * (toMiddle + out) };
}
