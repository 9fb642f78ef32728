/** A box with upright corners that are sharp or rounded; its outline is 2(l + w) − 8r + 2πr long. */
import type { Development, Line, Point } from '../piece.ts';
import { arc } from '../shape/arc.ts';
import type { Of } from '../spec/spec.ts';
import { baseOf, seamOf, wallOf } from '../spec/wall.ts';
import { tooThick } from './cannot-be.ts';
import { withoutTwins } from './joint.ts';
import { type Plan, planBase } from './plan-base.ts';
import { strip } from './strip.ts';

interface Rectangle {
  readonly length: number;
  readonly width: number;
  readonly corner: number;
}

const perimeterOf = ({ length, width, corner }: Rectangle): number =>
  2 * (length + width) + (2 * Math.PI - 8) * corner;

const grown = ({ length, width, corner }: Rectangle, out: number): Rectangle => ({
  length: length + 2 * out,
  width: width + 2 * out,
  corner: corner === 0 ? 0 : Math.max(0, corner + out),
});

export function box(spec: Of<'box'>): Development {
  const wall = wallOf(spec);
  const kind = baseOf(spec.base);
  const measured = { length: spec.length, width: spec.width, corner: spec.corner ?? 0 };
  const middle = grown(measured, wall.toMiddle);
  const height = kind === 'under' ? spec.height - wall.thick : spec.height;
  const within = grown(middle, -wall.thick / 2);
  if (Math.min(within.length, within.width) <= 0) throw tooThick('width');
  if (height <= 0) throw tooThick('height');
  const perimeter = perimeterOf(middle);
  const plan: Plan = {
    outline: (out) => rounded(grown(middle, out)),
    perimeter: (out) => perimeterOf(grown(middle, out)),
  };
  const { length, width, corner } = middle;
  return {
    pieces: [
      strip(perimeter, height, seamOf(spec.seam, wall), turnsOf(middle), kind !== 'none'),
      ...planBase(plan, kind, wall),
    ],
    facts: {
      area: perimeter * height,
      volume: height * (length * width - (4 - Math.PI) * corner ** 2),
    },
  };
}

/** Where the wall turns: the seam is at a sharp corner, or in the middle of a long side that runs into round ones. */
function turnsOf({ length, width, corner }: Rectangle): { at: number; pen: Line['pen'] }[] {
  if (corner === 0) return [length, length + width, 2 * length + width].map((at) => ({ at, pen: 'fold' }));
  const bend = (Math.PI / 2) * corner;
  const runs = [
    length / 2 - corner,
    bend,
    width - 2 * corner,
    bend,
    length - 2 * corner,
    bend,
    width - 2 * corner,
  ];
  let sum = 0;
  const stops = [...runs, bend].map((run) => {
    sum += run;
    return sum;
  });
  // Corners of half a side run into each other: one mark, not two on the same place.
  return [...new Set(stops.map((at) => Math.round(at * 1e6) / 1e6))].map((at) => ({ at, pen: 'mark' }));
}

function rounded({ length, width, corner }: Rectangle): Point[] {
  const [x, y] = [length / 2 - corner, width / 2 - corner];
  const corners: readonly (readonly [number, number, number])[] = [
    [x, y, 0],
    [-x, y, 1],
    [-x, -y, 2],
    [x, -y, 3],
  ];
  return withoutTwins(
    corners.flatMap(([cx, cy, quarter]) =>
      corner === 0
        ? [[cx, cy] as const]
        : arc([cx, cy], corner, (quarter * Math.PI) / 2, ((quarter + 1) * Math.PI) / 2),
    ),
  );
}
