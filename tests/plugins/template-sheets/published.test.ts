/** Forms against published theorems and tables that the code does not use. */
import { describe, expect, test } from 'vitest';
import { ellipsePerimeter } from '../../../plugins/template-sheets/forms/oval.ts';
import type { Point } from '../../../plugins/template-sheets/piece.ts';
import { boxOf, widthOf } from '../../../plugins/template-sheets/shape/measure.ts';
import { wetFactor } from '../../../plugins/template-sheets/spec/size.ts';
import type { Spec } from '../../../plugins/template-sheets/spec/spec.ts';
import { edgeOf, made, pieceOf } from './made.ts';

describe('the perimeter of an ellipse', () => {
  test.each([
    // E(m) of Abramowitz and Stegun, table 17.1; the values are from memory, checked by the sum in the tests of ovals.
    [0.25, 1.46746221],
    [0.5, 1.35064388],
    [0.75, 1.21105603],
  ])('is 4a E(m): m = %d', (m, complete) => {
    expect(ellipsePerimeter(100, 100 * Math.sqrt(1 - m))).toBeCloseTo(400 * complete, 5);
  });

  test.each([1, 0.9, 0.7, 0.5, 0.3])(
    'is Ramanujan’s second (1914) to what that leaves out: b/a = %d',
    (b) => {
      const h = ((1 - b) / (1 + b)) ** 2;
      const ramanujan = Math.PI * (1 + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
      // The first term that it leaves out is 3 h⁵ / 2¹⁷ of the whole.
      const leftOut = (3 * h ** 5) / 2 ** 17;
      expect(Math.abs(ellipsePerimeter(1, b) / ramanujan - 1)).toBeLessThan(2 * leftOut + 1e-14);
    },
  );
});

/** Area and the middle's distance from the axis of a plane figure: x is the distance. */
function figure(points: readonly Point[]) {
  let [area, moment] = [0, 0];
  points.forEach(([x, y], at) => {
    const [u, v] = points[(at + 1) % points.length]!;
    const cross = x * v - u * y;
    area += cross / 2;
    moment += ((x + u) * cross) / 6;
  });
  return { area: Math.abs(area), middle: moment / area };
}

/** Length and the middle's distance from the axis of a line. */
function line(points: readonly Point[]) {
  let [long, moment] = [0, 0];
  for (let at = 0; at + 1 < points.length; at++) {
    const [[x, y], [u, v]] = [points[at]!, points[at + 1]!];
    const step = Math.hypot(u - x, v - y);
    long += step;
    moment += (step * (x + u)) / 2;
  }
  return { long, middle: moment / long };
}

const arcOf = (radius: number, from: number, to: number): Point[] =>
  Array.from({ length: 4001 }, (_, at) => {
    const angle = from + ((to - from) * at) / 4000;
    return [radius * Math.sin(angle), -radius * Math.cos(angle)];
  });

/** Half sections, from the foot up; the axis is x = 0. */
const SECTIONS: readonly (readonly [string, Spec, readonly Point[]])[] = [
  [
    'a cylinder',
    { form: 'cylinder', diameter: 90, height: 120 },
    [
      [45, 0],
      [45, 120],
    ],
  ],
  [
    'a frustum',
    { form: 'frustum', bottom: 60, top: 140, height: 110 },
    [
      [30, 0],
      [70, 110],
    ],
  ],
  ['half a ball', { form: 'bowl', rim: 200, depth: 100, gores: 8 }, arcOf(100, 0, Math.PI / 2)],
  [
    'a shallow bowl, radius (a² + h²) / 2h',
    { form: 'bowl', rim: 240, depth: 60, gores: 8 },
    arcOf(150, 0, Math.asin(120 / 150)),
  ],
  ['a ball', { form: 'sphere', diameter: 160, gores: 12 }, arcOf(80, 0, Math.PI)],
];

describe('what turns about an axis (Pappus and Guldin)', () => {
  test.each(SECTIONS)('%s: its wall is its line times the way of that line’s middle', (_, spec, section) => {
    const { long, middle } = line(section);
    expect(made(spec).facts.area / (2 * Math.PI * middle * long)).toBeCloseTo(1, 6);
  });

  test.each(SECTIONS)('%s: it holds its half section times the way of its middle', (_, spec, section) => {
    const closed: Point[] = [[0, section[0]![1]], ...section, [0, section.at(-1)![1]]];
    const { area, middle } = figure(closed);
    expect(made(spec).facts.volume! / (2 * Math.PI * middle * area)).toBeCloseTo(1, 6);
  });
});

describe('linear shrinkage on the plastic length (ASTM C326)', () => {
  test('6 % in drying and 6 % of the dry length in firing are 11.64 % in all, and not 12 %', () => {
    const [plastic, dry, fired] = [127, 119.38, 112.2172];
    const [drying, firing] = [(plastic - dry) / plastic, (dry - fired) / dry];
    expect(1 - (1 - drying) * (1 - firing)).toBeCloseTo(0.1164, 10);
    expect(fired * wetFactor(0.1164)).toBeCloseTo(plastic, 9);
    expect(100 * wetFactor(0.12)).toBeCloseTo(113.636364, 6);
  });
});

describe('seams of a wall 6 mm thick and 90 mm across outside', () => {
  const girth = 84 * Math.PI;
  const wide = (spec: object) => {
    const wall = pieceOf(
      made({ form: 'cylinder', diameter: 90, height: 120, thickness: 6, ...spec } as Spec),
    );
    return { cut: widthOf(boxOf(wall.outline)), seam: edgeOf(wall, 'top').length, lines: wall.lines };
  };

  test('butted: cut to the middle of the wall’s girth, and not a hair more', () => {
    expect(wide({ seam: 'butt' })).toMatchObject({ cut: expect.closeTo(girth, 9), lines: [] });
  });

  test('butted with an allowance: that much more clay, to be trimmed away', () => {
    expect(wide({ seam: { joint: 'butt', allowance: 4 } }).cut).toBeCloseTo(girth + 4, 9);
  });

  test('bevelled: longer by the overlap, so that overlapped it is the girth again', () => {
    const { cut, seam } = wide({ seam: { joint: 'bevel', allowance: 9 } });
    expect(cut - 9).toBeCloseTo(girth, 9);
    expect(seam).toBeCloseTo(girth, 9);
  });
});

test('two gores’ edges meet along the whole meridian, and the widest place is a share of the girth', () => {
  for (const gores of [6, 12, 24]) {
    const gore = pieceOf(made({ form: 'sphere', diameter: 200, gores }), 'gore');
    expect(widthOf(boxOf(gore.outline))).toBeCloseTo((200 * Math.PI) / gores, 1);
  }
});
