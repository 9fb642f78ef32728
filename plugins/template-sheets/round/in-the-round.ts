/** A form seen from a little above: its rims, its outline against the air, and those of its edges that face the eye. */
import type { Point } from '../piece.ts';
import type { Measured } from '../spec/spec.ts';
import { type Ring, solidOf } from './rings.ts';

/** How far the eye looks down, and how far the form is turned from square (radians). */
const DOWN = 0.38;
const TURNED = 0.42;

/** Lines in mm of the form, y down. */
export function inTheRound(spec: Measured): Point[][] {
  const { rings, creases } = solidOf(spec);
  const seen = rings.map(projected);
  const around = seen[0]!.length;
  const wrap = (at: number): number => (at + around) % around;
  const lines: Point[][] = [closed(seen.at(-1)!)];
  const facing = seen
    .slice(1)
    .map((upper, level) =>
      upper.map((_, at) =>
        faces(seen[level]![at]!, seen[level]![wrap(at + 1)]!, upper[wrap(at + 1)]!, upper[at]!),
      ),
    );
  facing.forEach((faced, level) => {
    for (let at = 0; at < around; at++) {
      const [left, right] = [faced[wrap(at - 1)]!, faced[at]!];
      if (left !== right || (creases.has(at) && left)) lines.push([seen[level]![at]!, seen[level + 1]![at]!]);
      const below = facing[level - 1]?.[at];
      if (right && (level === 0 || below === false))
        lines.push([seen[level]![at]!, seen[level]![wrap(at + 1)]!]);
    }
  });
  return lines;
}

const closed = (ring: readonly Point[]): Point[] => [...ring, ring[0]!];

function projected({ height, points }: Ring): Point[] {
  const [cos, sin] = [Math.cos(TURNED), Math.sin(TURNED)];
  return points.map(([x, y]) => [
    x * cos - y * sin,
    (x * sin + y * cos) * Math.sin(DOWN) - height * Math.cos(DOWN),
  ]);
}

/** Whether a face, gone round as seen from outside, is turned to the eye. */
function faces(a: Point, b: Point, c: Point, d: Point): boolean {
  const twice = (c[0] - a[0]) * (d[1] - b[1]) - (c[1] - a[1]) * (d[0] - b[0]);
  return twice > 0;
}
