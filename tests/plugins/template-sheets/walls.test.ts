/** Developments of round and many-sided walls against published cases and by identity. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { areaOf, boxOf, lengthOf, widthOf } from '../../../plugins/template-sheets/shape/measure.ts';
import type { Spec } from '../../../plugins/template-sheets/spec/spec.ts';
import { edgeOf, made, pieceOf } from './made.ts';

const INCH = 25.4;
const size = fc.double({ min: 20, max: 600, noNaN: true });

/** Outlines are chords within 0.005 mm of the curve: a little short of it, never long. */
function closes(spec: Spec) {
  const { pieces, facts } = made(spec);
  const wall = pieces[0]!;
  for (const edge of pieces.flatMap((piece) => piece.edges)) {
    const drawn = lengthOf(edge.along, edge.closed);
    expect(drawn).toBeLessThanOrEqual(edge.length + 1e-6);
    expect(drawn).toBeGreaterThan(edge.length - 0.2);
  }
  expect(areaOf(wall.outline) * wall.count).toBeCloseTo(facts.area, -2);
  expect(Math.abs(areaOf(wall.outline) * wall.count - facts.area) / facts.area).toBeLessThan(5e-4);
}

describe('a cylinder', () => {
  test('unrolls to a rectangle as long as its circumference', () => {
    const wall = pieceOf(made({ form: 'cylinder', diameter: 90, height: 120 }));
    expect(widthOf(boxOf(wall.outline))).toBeCloseTo(90 * Math.PI, 9);
    expect(edgeOf(wall, 'left seam').length).toBe(120);
    expect(areaOf(wall.outline)).toBeCloseTo(90 * Math.PI * 120, 6);
  });

  test('measured outside is shorter by pi times the wall; measured inside longer by as much', () => {
    const across = (measured: 'outside' | 'inside') =>
      edgeOf(
        pieceOf(made({ form: 'cylinder', diameter: 90, height: 120, thickness: { wall: 6, measured } })),
        'top',
      ).length;
    expect(across('outside')).toBeCloseTo(84 * Math.PI, 9);
    expect(across('inside')).toBeCloseTo(96 * Math.PI, 9);
  });

  test('has a bevelled seam as wide as the wall is thick, half of it at either end', () => {
    const wall = pieceOf(made({ form: 'cylinder', diameter: 90, height: 120, thickness: 6, seam: 'bevel' }));
    const box = boxOf(wall.outline);
    expect(box.left).toBeCloseTo(-3, 9);
    expect(box.right).toBeCloseTo(84 * Math.PI + 3, 9);
    expect(wall.lines.map(({ pen, points }) => [pen, points[0]![0]])).toEqual([
      ['bevel', 3],
      ['bevel', 84 * Math.PI - 3],
    ]);
  });

  test('standing on a base is shorter by the base, whose seat is as long as the wall', () => {
    const set = made({ form: 'cylinder', diameter: 90, height: 120, thickness: 6, base: true });
    expect(edgeOf(pieceOf(set), 'left seam').length).toBe(114);
    expect(edgeOf(pieceOf(set, 'base'), 'rim').length).toBeCloseTo(90 * Math.PI, 9);
    expect(edgeOf(pieceOf(set, 'base'), 'rim').joins!.length).toBeCloseTo(84 * Math.PI, 9);
  });

  test('is cut larger than it is to be fired: wet = fired / (1 − s), ASTM C326', () => {
    const wall = pieceOf(made({ form: 'cylinder', diameter: 88, height: 110, shrinkage: 0.12 }));
    expect(edgeOf(wall, 'top').length).toBeCloseTo(100 * Math.PI, 9);
    expect(edgeOf(wall, 'left seam').length).toBeCloseTo(125, 9);
  });
});

describe('a cone frustum', () => {
  test('of 8, 5 and 4 inches has the published pattern: r 7.12, R 11.39, 126.4° (ceemrr.com, DrawingsNets6)', () => {
    const { facts } = made({ form: 'frustum', bottom: 8 * INCH, top: 5 * INCH, height: 4 * INCH });
    expect(facts.innerRadius! / INCH).toBeCloseTo(7.120003, 6);
    expect(facts.outerRadius! / INCH).toBeCloseTo(11.392005, 6);
    expect(facts.angle).toBeCloseTo(126.404439, 6);
    expect(facts.area / INCH ** 2).toBeCloseTo(87.235783, 6);
  });

  test('of 100, 60 and 80 mm, as worked out by hand', () => {
    const set = made({ form: 'frustum', bottom: 60, top: 100, height: 80 });
    expect(edgeOf(pieceOf(set), 'left seam').length).toBeCloseTo(82.462113, 6);
    expect(set.facts.outerRadius).toBeCloseTo(206.155281, 6);
    expect(set.facts.innerRadius).toBeCloseTo(123.693169, 6);
    expect(set.facts.angle).toBeCloseTo(87.312825, 6);
  });

  test('that comes to a right-angled point is a sector of 254.6° (anvilfire.com)', () => {
    const { facts, pieces } = made({ form: 'frustum', bottom: 200, top: 0, height: 100 });
    expect(facts.angle).toBeCloseTo(254.558441, 6);
    expect(facts.innerRadius).toBe(0);
    expect(facts.volume).toBeCloseTo((Math.PI * 100 ** 3) / 3, 6);
    expect(areaOf(pieces[0]!.outline)).toBeCloseTo(facts.area, -1);
  });

  test('with equal ends is the cylinder', () => {
    const set = made({ form: 'frustum', bottom: 90, top: 90, height: 120 });
    expect(set.facts).toMatchObject({ innerRadius: null, outerRadius: null, angle: 0 });
    expect(pieceOf(set).outline).toEqual(
      pieceOf(made({ form: 'cylinder', diameter: 90, height: 120 })).outline,
    );
  });

  test('that hardly tapers keeps its size, though its apex is a kilometre away', () => {
    const wall = pieceOf(made({ form: 'frustum', bottom: 100, top: 100.01, height: 100 }));
    expect(widthOf(boxOf(wall.outline))).toBeCloseTo(100.01 * Math.PI, 3);
  });

  test('of any size closes, and has the area and rims of its form', () => {
    fc.assert(
      fc.property(size, size, size, (bottom, top, height) =>
        closes({ form: 'frustum', bottom, top, height }),
      ),
      { numRuns: 60 },
    );
  });

  test('thick-walled: the middle of the wall lies half its thickness square from the outside', () => {
    const set = made({ form: 'frustum', bottom: 120, top: 200, height: 150, thickness: 6 });
    const slant = Math.hypot(150, 40);
    const [bottom, top] = ['bottom', 'top'].map((name) => edgeOf(pieceOf(set), name).length / Math.PI);
    // Distance between two parallel lines in the upright section: difference of radii times cos(lean).
    expect(((120 - bottom!) / 2) * (150 / slant)).toBeCloseTo(3, 9);
    expect(((200 - top!) / 2) * (150 / slant)).toBeCloseTo(3, 9);
  });
});

describe('a many-sided pot', () => {
  test('of four sides, 10 below, 4 above and 4 high: slant 5, edge 5.830952, lateral area 140', () => {
    const tenfold = made({ form: 'polygon', sides: 4, bottomSide: 100, topSide: 40, height: 40 });
    expect(tenfold.facts.area).toBeCloseTo(14_000, 6);
    expect(edgeOf(pieceOf(tenfold), 'left seam').length).toBeCloseTo(58.30952, 5);
    expect(tenfold.facts.outerRadius).toBeCloseTo(97.18253, 5);
    expect(tenfold.facts.innerRadius).toBeCloseTo(38.87301, 5);
    expect(tenfold.facts.angle! / 4).toBeCloseTo(61.927513, 6);
  });

  test('of six sides, 60, 40 and 100 mm', () => {
    const set = made({ form: 'polygon', sides: 6, bottomSide: 60, topSide: 40, height: 100 });
    expect(edgeOf(pieceOf(set), 'left seam').length).toBeCloseTo(101.98039, 5);
    expect(set.facts.area).toBeCloseTo(30_446.674695, 5);
    expect(set.facts.outerRadius).toBeCloseTo(305.941171, 5);
    expect(set.facts.innerRadius).toBeCloseTo(203.960781, 5);
    expect(set.facts.angle! / 6).toBeCloseTo(11.254712, 5);
    expect(areaOf(pieceOf(set).outline)).toBeCloseTo(set.facts.area, 6);
  });

  test('of any size: each side of the pattern is as long as the pot’s, and so is its area', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 24 }),
        size,
        size,
        size,
        fc.constantFrom('joined' as const, 'apart' as const),
        (sides, bottomSide, topSide, height, faces) => {
          const { pieces, facts } = made({ form: 'polygon', sides, bottomSide, topSide, height, faces });
          const [wall] = pieces;
          for (const edge of wall!.edges) expect(lengthOf(edge.along)).toBeCloseTo(edge.length, 6);
          expect((areaOf(wall!.outline) * wall!.count) / facts.area).toBeCloseTo(1, 9);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('in slabs has mitres that halve the angle between its faces', () => {
    const straight = made({
      form: 'polygon',
      sides: 6,
      bottomSide: 60,
      height: 100,
      faces: 'apart',
      thickness: { wall: 8, measured: 'middle' },
    });
    const slab = pieceOf(straight, 'side');
    expect(slab.count).toBe(6);
    expect(slab.notes).toEqual(['mitre 30°']);
    expect(widthOf(boxOf(slab.outline))).toBeCloseTo(60 + 8 * Math.tan(Math.PI / 6), 9);
  });

  test('stands on a base whose sides are those of the wall', () => {
    const set = made({
      form: 'polygon',
      sides: 5,
      bottomSide: 50,
      topSide: 70,
      height: 90,
      thickness: 5,
      base: 'under',
    });
    const wall = pieceOf(set).edges.filter(({ joins }) => joins?.joint === 'base');
    const base = pieceOf(set, 'base').edges;
    expect(base.map(({ joins }) => joins!.length)).toEqual(wall.map(({ joins }) => joins!.length));
  });
});
