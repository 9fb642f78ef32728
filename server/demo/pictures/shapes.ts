/** The demo's forms in outline: half a profile turned round its axis, or a flat thing seen from the front. */

/** Half width and depth below the rim, both as parts of the whole, from the rim to the foot. */
type Profile = readonly (readonly [half: number, down: number])[];

export interface Shape {
  readonly kind: 'turned' | 'flat' | 'plate';
  readonly profile: Profile;
  readonly handle?: boolean;
  readonly spout?: boolean;
  readonly lid?: boolean;
}

const turned = (profile: Profile, more: Partial<Shape> = {}): Shape => ({ kind: 'turned', profile, ...more });

const STRAIGHT: Profile = [
  [1, 0],
  [0.96, 0.4],
  [0.9, 0.8],
  [0.76, 0.96],
  [0.7, 1],
];
const OPEN: Profile = [
  [1, 0],
  [0.92, 0.35],
  [0.72, 0.7],
  [0.42, 0.92],
  [0.42, 1],
];
const ROUND: Profile = [
  [0.42, 0],
  [0.72, 0.14],
  [1, 0.48],
  [0.8, 0.84],
  [0.46, 1],
];
const NECKED: Profile = [
  [0.4, 0],
  [0.3, 0.16],
  [0.42, 0.34],
  [1, 0.66],
  [0.86, 0.9],
  [0.62, 1],
];
const BELLIED: Profile = [
  [0.8, 0],
  [0.74, 0.2],
  [1, 0.62],
  [0.84, 0.92],
  [0.66, 1],
];
const SQUARE: Profile = [
  [1, 0],
  [1, 1],
];

const SHAPES: Readonly<Record<string, Shape>> = {
  mug: turned(STRAIGHT, { handle: true }),
  'cereal bowl': turned(OPEN),
  'serving bowl': turned(OPEN),
  'dessert dish': turned(OPEN),
  'side plate': { kind: 'plate', profile: OPEN },
  'dinner plate': { kind: 'plate', profile: OPEN },
  'cream jug': turned(BELLIED, { handle: true, spout: true }),
  teapot: turned(ROUND, { handle: true, spout: true, lid: true }),
  'lidded jar': turned(BELLIED, { lid: true }),
  'moon jar': turned(ROUND),
  'bottle vase': turned(NECKED),
  'altar lamp': turned(BELLIED, { lid: true }),
  'wall planter': { kind: 'flat', profile: BELLIED },
  'house-number tile': { kind: 'flat', profile: SQUARE },
  'hearth tile': { kind: 'flat', profile: SQUARE },
};

export const shapeOf = (form: string): Shape => SHAPES[form] ?? turned(STRAIGHT);

const text = (n: number): string => n.toFixed(1);

/** A smooth line through the points (Catmull and Rom 1974, as Bézier curves), from the first, where the pen is. */
function through(points: readonly (readonly [number, number])[]): string {
  const at = (n: number) => points[Math.max(0, Math.min(points.length - 1, n))]!;
  return points
    .slice(1)
    .map(([x, y], n) => {
      const [before, from, next] = [at(n - 1), at(n), at(n + 2)];
      const first = [from[0] + (x - before[0]) / 6, from[1] + (y - before[1]) / 6];
      const second = [x - (next[0] - from[0]) / 6, y - (next[1] - from[1]) / 6];
      return `C${[...first, ...second, x, y].map(text).join(' ')}`;
    })
    .join('');
}

export interface Box {
  /** Its middle, its rim, and how large it is; pixels. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The wall from rim to foot, both sides, down to that part of its height. */
export function wallOf({ kind, profile }: Shape, { x, y, width, height }: Box): string {
  const right = profile.map(([half, down]) => [x + (half * width) / 2, y + down * height] as const);
  const left = right.map(([at, down]) => [2 * x - at, down] as const).toReversed();
  const [start, end] = [right[0]!, left[0]!];
  const straight = kind === 'flat' && profile.length === 2;
  const line = (points: readonly (readonly [number, number])[]) =>
    straight
      ? points
          .slice(1)
          .map(([a, b]) => `L${text(a)} ${text(b)}`)
          .join('')
      : through(points);
  return `M${text(start[0])} ${text(start[1])}${line(right)}L${text(end[0])} ${text(end[1])}${line(left)}Z`;
}
