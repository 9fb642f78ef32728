/** Curves as points. */
import type { Point } from '../piece.ts';

/** mm by which a chord may leave its curve: a tenth of a printed dot at 600 dpi. */
export const CHORD = 0.005;

/** Chords that an arc of `radius` mm over `turn` radians needs. The sagitta of a chord is r(1 − cos(a/2)). */
export function chordsFor(radius: number, turn: number, least = 1, chord = CHORD): number {
  if (radius <= chord) return least;
  const step = 2 * Math.acos(1 - chord / radius);
  return Math.max(least, Math.ceil(Math.abs(turn) / step));
}

/** Points from `from` to `to` (radians), both ends among them. */
export function arc([cx, cy]: Point, radius: number, from: number, to: number): Point[] {
  const chords = chordsFor(radius, to - from);
  return Array.from({ length: chords + 1 }, (_, at) => {
    const angle = from + ((to - from) * at) / chords;
    return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)] as const;
  });
}

/** A closed circle. */
export const circle = (centre: Point, radius: number): Point[] =>
  arc(centre, radius, 0, 2 * Math.PI).slice(0, -1);

/** Points of y(t) between two values of t, close enough for `CHORD`; for smooth curves without loops. */
export function traced(at: (t: number) => Point, from: number, to: number): Point[] {
  const points: Point[] = [at(from)];
  const COARSE = 16;
  for (let part = 0; part < COARSE; part++)
    halve(at, from + ((to - from) * part) / COARSE, from + ((to - from) * (part + 1)) / COARSE, points, 0);
  return points;
}

const DEEPEST = 10;

function halve(at: (t: number) => Point, from: number, to: number, points: Point[], depth: number): void {
  const [a, m, b] = [at(from), at((from + to) / 2), at(to)];
  const off = Math.hypot(m[0] - (a[0] + b[0]) / 2, m[1] - (a[1] + b[1]) / 2);
  if (off <= CHORD || depth === DEEPEST) points.push(b);
  else {
    halve(at, from, (from + to) / 2, points, depth + 1);
    halve(at, (from + to) / 2, to, points, depth + 1);
  }
}
