/** Ovals, boxes, bowls, balls and handles: by formula and by identity. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ellipsePerimeter } from '../../../plugins/template-sheets/forms/oval.ts';
import {
  areaOf,
  boxOf,
  heightOf,
  lengthOf,
  widthOf,
} from '../../../plugins/template-sheets/shape/measure.ts';
import type { Spec } from '../../../plugins/template-sheets/spec/spec.ts';
import { edgeOf, made, pieceOf, sheetsOf, wrongWith } from './made.ts';

const size = fc.double({ min: 30, max: 400, noNaN: true });

/** Every edge is drawn as long as its formula says, and the two sides of every joint are equally long. */
function joinsUp(spec: Spec) {
  const { pieces } = made(spec);
  const joints = new Map<string, number>();
  for (const { count, edges } of pieces)
    for (const { along, closed, length, joins } of edges) {
      expect(Math.abs(lengthOf(along, closed) - length)).toBeLessThan(0.1);
      if (joins)
        joints.set(
          joins.joint,
          (joints.get(joins.joint) ?? 0) + count * joins.length * (joins.side === 'a' ? 1 : -1),
        );
    }
  expect(joints.size).toBeGreaterThan(0);
  for (const [joint, gap] of joints) expect(Math.abs(gap), joint).toBeLessThan(0.2);
}

describe('an oval', () => {
  test('has an ellipse’s perimeter: circles, the flat limit, and a plain sum agree', () => {
    expect(ellipsePerimeter(50, 50)).toBeCloseTo(100 * Math.PI, 10);
    // A flat ellipse is twice its long axis.
    expect(ellipsePerimeter(100, 1e-9)).toBeCloseTo(400, 6);
    const step = (2 * Math.PI) / 1e5;
    let sum = 0;
    for (let at = 0; at < 1e5; at++)
      sum += Math.hypot(5 * Math.sin(at * step), 3 * Math.cos(at * step)) * step;
    expect(ellipsePerimeter(5, 3)).toBeCloseTo(sum, 9);
    expect(ellipsePerimeter(5, 3)).toBeCloseTo(25.526998863, 8);
  });

  test('measured outside has a wall shorter by pi times its thickness, whatever its shape', () => {
    const wall = pieceOf(made({ form: 'oval', length: 200, width: 120, height: 90, thickness: 6 }));
    expect(edgeOf(wall, 'top').length).toBeCloseTo(ellipsePerimeter(100, 60) - 6 * Math.PI, 9);
  });

  test('whose wall is too thick for its ends is refused', () => {
    expect(wrongWith({ form: 'oval', length: 300, width: 40, height: 90, thickness: 10 })[0]).toMatch(
      /“thickness” is too much for the ends of this oval, which turn on a radius of 2.7 mm/,
    );
  });

  test('of any size joins its base', () => {
    fc.assert(
      fc.property(size, fc.double({ min: 0.5, max: 1, noNaN: true }), size, (length, share, height) =>
        joinsUp({ form: 'oval', length, width: length * share, height, thickness: 3, base: 'under' }),
      ),
      { numRuns: 30 },
    );
  });
});

describe('a box', () => {
  test('with round corners has a wall 2(l + w) − 8r + 2πr long, marked where it turns', () => {
    const set = made({ form: 'box', length: 200, width: 120, height: 90, corner: 20, base: true });
    const wall = pieceOf(set);
    expect(widthOf(boxOf(wall.outline))).toBeCloseTo(640 - 160 + 40 * Math.PI, 9);
    expect(wall.lines.map(({ pen }) => pen)).toEqual(Array(8).fill('mark'));
    expect(wall.lines[0]!.points[0]![0]).toBe(80);
    expect(areaOf(pieceOf(set, 'base').outline)).toBeCloseTo(200 * 120 - (4 - Math.PI) * 400, 0);
  });

  test('with sharp corners folds at each', () => {
    const wall = pieceOf(made({ form: 'box', length: 200, width: 120, height: 90 }));
    expect(wall.lines.map(({ pen, points }) => [pen, points[0]![0]])).toEqual([
      ['fold', 200],
      ['fold', 320],
      ['fold', 520],
    ]);
  });

  test('of any size joins its base', () => {
    fc.assert(
      fc.property(
        size,
        size,
        size,
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (length, width, height, share) =>
          joinsUp({
            form: 'box',
            length,
            width,
            height,
            corner: Math.min(length, width) * share,
            thickness: { wall: 4, measured: 'inside' },
            base: 'inside',
          }),
      ),
      { numRuns: 30 },
    );
  });
});

describe('a bowl', () => {
  test('with darts keeps the rim’s length and the bowl’s area', () => {
    const set = made({ form: 'bowl', rim: 200, depth: 80, foot: 70, darts: 8 });
    const slab = pieceOf(set, 'bowl');
    const rim = slab.edges.filter(({ name }) => name.startsWith('rim'));
    expect(rim.reduce((sum, { length }) => sum + length, 0)).toBeCloseTo(200 * Math.PI, 6);
    expect(areaOf(slab.outline) / set.facts.area).toBeCloseTo(1, 3);
    // A half ball of the same rim is deeper, and its slab reaches a quarter of a great circle from the middle.
    const half = made({ form: 'bowl', rim: 200, depth: 100, darts: 8 });
    expect(half.facts.area).toBeCloseTo(2 * Math.PI * 100 ** 2, 6);
    expect(Math.max(...pieceOf(half, 'bowl').outline.map(([x, y]) => Math.hypot(x, y)))).toBeCloseTo(
      (Math.PI / 2) * 100,
      6,
    );
  });

  test('measured outside is a smaller ball inside, cut off level with the rim', () => {
    const half = made({ form: 'bowl', rim: 200, depth: 100, gores: 6, thickness: 8 });
    expect(half.facts.area).toBeCloseTo(2 * Math.PI * 96 ** 2, 6);
    expect(half.facts.volume).toBeCloseTo((2 / 3) * Math.PI * 96 ** 3, 3);
  });

  test('of any size: petals close on each other, gores on the foot', () => {
    const depth = fc.double({ min: 0.2, max: 1.4, noNaN: true });
    const foot = fc.constantFrom(0, 0.3, 0.6);
    const many = fc.integer({ min: 3, max: 16 });
    fc.assert(
      fc.property(size, depth, foot, many, fc.boolean(), (rim, deep, share, parts, darts) =>
        joinsUp({
          form: 'bowl',
          rim,
          depth: Math.max(10, (rim / 2) * deep),
          foot: share * rim,
          ...(darts ? { darts: parts } : { gores: parts }),
        }),
      ),
      { numRuns: 40 },
    );
  });

  test('needs darts or gores, and a rim wider than its foot', () => {
    expect(wrongWith({ form: 'bowl', rim: 200, depth: 80 })).toEqual([
      'A bowl needs either “darts” or “gores”, a whole number from 3 to 48.',
    ]);
    expect(wrongWith({ form: 'bowl', rim: 200, foot: 200, depth: 80, darts: 6 })).toEqual([
      '“foot” is 200; it should be less than the rim, 200 mm.',
    ]);
  });
});

describe('a ball', () => {
  test('in gores: each as long as half a great circle, together as wide as the girth, area 4πr²', () => {
    const set = made({ form: 'sphere', diameter: 160, gores: 8 });
    const gore = pieceOf(set, 'gore');
    const box = boxOf(gore.outline);
    expect(gore.count).toBe(8);
    expect(heightOf(box)).toBeCloseTo(80 * Math.PI, 6);
    expect(widthOf(box) * 8).toBeCloseTo(160 * Math.PI, 2);
    expect(set.facts.area).toBeCloseTo(4 * Math.PI * 80 ** 2, 6);
    expect(areaOf(gore.outline) * 8).toBeCloseTo(set.facts.area, -2);
    expect(set.facts.volume).toBeCloseTo((4 / 3) * Math.PI * 80 ** 3, 3);
    joinsUp({ form: 'sphere', diameter: 160, gores: 8 });
  });

  test('with an opening ends as wide as its share of it', () => {
    const gore = pieceOf(made({ form: 'sphere', diameter: 160, gores: 8, opening: 60 }), 'gore');
    expect(edgeOf(gore, 'top').length).toBeCloseTo((60 * Math.PI) / 8, 9);
  });
});

describe('a set', () => {
  test('has its handle, tapered, as many as are asked for', () => {
    const set = made({
      form: 'cylinder',
      diameter: 90,
      height: 100,
      handle: { length: 180, width: 30, endWidth: 18, count: 2 },
    });
    const handle = pieceOf(set, 'handle');
    expect(handle.count).toBe(2);
    expect(edgeOf(handle, 'end').length).toBe(30);
    expect(edgeOf(handle, 'left side').length).toBeCloseTo(Math.hypot(180, 6), 9);
  });

  test('in three sizes has walls of one thickness, all of them on the sheets', () => {
    const sizes = [
      { name: 'small', scale: 0.8 },
      { name: 'middle', scale: 1 },
      { name: 'large', scale: 1.25 },
    ];
    const spec: Spec = {
      form: 'cylinder',
      diameter: 80,
      height: 100,
      thickness: 5,
      seam: 'bevel',
      base: true,
      sizes,
    };
    const { pieces } = made(spec);
    expect(pieces.map(({ name }) => name)).toEqual(
      sizes.flatMap(({ name }) => [`wall, ${name}`, `base, ${name}`]),
    );
    expect(edgeOf(pieces[4]!, 'top').length).toBeCloseTo((100 - 5) * Math.PI, 9);
    const { sheets } = sheetsOf(spec, 'A3');
    expect(sheets.checks.filter(({ passed }) => !passed)).toEqual([]);
  });
});
