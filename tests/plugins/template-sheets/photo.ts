/** A made-up photo: paper on a table, seen from one side, with shadow and noise. */
import type { Point } from '../../../plugins/template-sheets/piece.ts';
import type { Grey } from '../../../plugins/template-sheets/scan/grey.ts';
import { fromFour, mapped } from '../../../plugins/template-sheets/scan/homography.ts';
import { arc } from '../../../plugins/template-sheets/shape/arc.ts';
import { toOutline } from '../../../plugins/template-sheets/shape/inside.ts';
import { seeded } from '../../support/seeded.ts';

const [WIDTH, HEIGHT] = [1150, 800];
/** The table in mm: an A5 sheet of known size at the left, a wall pocket's front at the right. */
export const sheet: readonly Point[] = [
  [0, 0],
  [148, 0],
  [148, 210],
  [0, 210],
];
export const pocket: readonly Point[] = [
  [175, 10],
  [300, 10],
  [300, 120],
  ...arc([237.5, 120], 62.5, 0, Math.PI).slice(1),
  [175, 90],
  [187, 75],
  [175, 60],
];
/** Where the sheet's corners came to lie in the picture. */
export const corners: readonly [Point, Point, Point, Point] = [
  [70, 80],
  [495, 98],
  [508, 690],
  [42, 734],
];
const toMm = fromFour(corners, sheet)!;

/** Light falls off to one corner, and a soft shadow lies across the pocket. */
function light([x, y]: Point): number {
  const shade = 1 / (1 + Math.exp(-(x * 0.8 + y * 0.6 - 265) / 9));
  return (1 - 0.25 * (x / 320)) * (1 - 0.5 * shade);
}

/** The same pocket by its measures: a front with a round foot, and a notch in its left edge. */
function isPaper([x, y]: Point): boolean {
  if (x >= 0 && x <= 148 && y >= 0 && y <= 210) return true;
  if (x < 175 || x > 300 || y < 10) return false;
  if (y > 120) return (x - 237.5) ** 2 + (y - 120) ** 2 <= 62.5 ** 2;
  return !(x < 187 && Math.abs(y - 75) < (187 - x) * (15 / 12));
}

/** Places within a pixel that light is gathered from. */
const GATHERED = [0.25, 0.75].flatMap((x) => [0.25, 0.75].map((y) => [x, y] as const));

export function photo(noise: number, shadow = true): Grey {
  const chance = seeded(7);
  const shades = new Float32Array(WIDTH * HEIGHT);
  const jitter = Float32Array.from({ length: 4096 }, () => {
    const [u, v] = [Math.max(1e-9, chance()), chance()];
    return noise * Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * v);
  });
  for (let row = 0; row < HEIGHT; row++)
    for (let column = 0; column < WIDTH; column++) {
      const at = mapped(toMm, [column + 0.5, row + 0.5]);
      const paper =
        GATHERED.filter(([x, y]) => isPaper(mapped(toMm, [column + x, row + y]))).length / GATHERED.length;
      const shade = (85 + 130 * paper) * (shadow ? light(at) : 1) + jitter[Math.floor(chance() * 4096)]!;
      shades[row * WIDTH + column] = Math.min(255, Math.max(0, shade));
    }
  return { width: WIDTH, height: HEIGHT, shades };
}

/** The farthest that either outline strays from the other, mm. */
export function apart(a: readonly Point[], b: readonly Point[]): number {
  return Math.max(...a.map((point) => toOutline(b, point)), ...b.map((point) => toOutline(a, point)));
}
