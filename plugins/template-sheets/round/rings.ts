/** A form as level rings, one above the other, each of as many points: what a picture in the round is drawn from. */
import type { Point } from '../piece.ts';
import type { Measured } from '../spec/spec.ts';

export interface Ring {
  /** mm above the ground. */
  readonly height: number;
  readonly points: readonly Point[];
}

export interface Solid {
  readonly rings: readonly Ring[];
  /** Which points of a ring are sharp upright edges. */
  readonly creases: ReadonlySet<number>;
}

const AROUND = 72;

const circle = (height: number, radius: number, around = AROUND): Ring => ({
  height,
  points: Array.from({ length: around }, (_, at) => {
    const angle = (2 * Math.PI * at) / around;
    return [radius * Math.cos(angle), radius * Math.sin(angle)] as const;
  }),
});

const smooth = (rings: readonly Ring[]): Solid => ({ rings, creases: new Set() });

/** A part of a ball from `low` to `high` (angles from its lowest point), with the seams along which it was joined. */
function bulge(radius: number, low: number, high: number, seams: number): Solid {
  const each = Math.ceil(AROUND / seams);
  const rings = Array.from({ length: 25 }, (_, at) => {
    const angle = low + ((high - low) * at) / 24;
    return circle(-radius * Math.cos(angle), radius * Math.sin(angle), each * seams);
  });
  return { rings, creases: new Set(Array.from({ length: seams }, (_, at) => at * each)) };
}

export function solidOf(spec: Measured): Solid {
  switch (spec.form) {
    case 'cylinder':
      return smooth([circle(0, spec.diameter / 2), circle(spec.height, spec.diameter / 2)]);
    case 'frustum':
      return smooth([circle(0, spec.bottom / 2), circle(spec.height, spec.top / 2)]);
    case 'oval': {
      const plan = circle(0, spec.length / 2).points.map(
        ([x, y]): Point => [x, (y * spec.width) / spec.length],
      );
      return smooth([0, spec.height].map((height) => ({ height, points: plan })));
    }
    case 'polygon':
      return manySided(spec.sides, spec.height, spec.bottomSide, spec.topSide ?? spec.bottomSide);
    case 'box':
      return boxy(spec.length, spec.width, spec.height, spec.corner ?? 0);
    case 'bowl': {
      const [a, f, h] = [spec.rim / 2, (spec.foot ?? 0) / 2, spec.depth];
      const centre = (a * a + h * h - f * f) / (2 * h);
      return bulge(
        Math.hypot(f, centre),
        Math.atan2(f, centre),
        Math.atan2(a, centre - h),
        spec.darts ?? spec.gores!,
      );
    }
    case 'sphere':
      return bulge(
        spec.diameter / 2,
        0,
        Math.PI - Math.asin((spec.opening ?? 0) / spec.diameter),
        spec.gores,
      );
  }
}

function manySided(sides: number, height: number, bottom: number, top: number): Solid {
  const ring = (at: number, side: number): Ring => ({
    height: at,
    points: Array.from({ length: sides }, (_, corner) => {
      const [angle, radius] = [(2 * Math.PI * corner) / sides, side / (2 * Math.sin(Math.PI / sides))];
      return [radius * Math.cos(angle), radius * Math.sin(angle)] as const;
    }),
  });
  return {
    rings: [ring(0, bottom), ring(height, top)],
    creases: new Set(Array.from({ length: sides }, (_, at) => at)),
  };
}

function boxy(length: number, width: number, height: number, corner: number): Solid {
  const steps = corner > 0 ? 8 : 0;
  const [x, y] = [length / 2 - corner, width / 2 - corner];
  const points = [
    [x, y],
    [-x, y],
    [-x, -y],
    [x, -y],
  ].flatMap(([cx, cy], quarter) =>
    Array.from({ length: steps + 1 }, (_, at): Point => {
      const angle = (Math.PI / 2) * (quarter + (steps ? at / steps : 0));
      return [cx! + corner * Math.cos(angle), cy! + corner * Math.sin(angle)];
    }),
  );
  return {
    rings: [0, height].map((level) => ({ height: level, points })),
    creases: new Set(steps ? [] : [0, 1, 2, 3]),
  };
}
