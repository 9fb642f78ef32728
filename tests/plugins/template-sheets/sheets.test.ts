/** Pieces on paper: nothing lost, nothing twice, pages that fit together. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Point } from '../../../plugins/template-sheets/piece.ts';
import { inside, toLine } from '../../../plugins/template-sheets/shape/inside.ts';
import { lengthOf } from '../../../plugins/template-sheets/shape/measure.ts';
import { checksOf } from '../../../plugins/template-sheets/sheets/checks.ts';
import { cutUp } from '../../../plugins/template-sheets/sheets/cut-up.ts';
import { layOut } from '../../../plugins/template-sheets/sheets/lay-out.ts';
import { PAPERS, pageOn, paperNamed } from '../../../plugins/template-sheets/sheets/paper.ts';
import type { Sheet } from '../../../plugins/template-sheets/sheets/sheet.ts';
import type { Spec } from '../../../plugins/template-sheets/spec/spec.ts';
import { JUG_WITH_HANDLE } from '../../support/faceted-jug.ts';
import { edgeOf, made, pieceOf, sheetsOf, wrongWith } from './made.ts';

const jug: Spec = {
  form: 'polygon',
  sides: 6,
  bottomSide: 60,
  topSide: 45,
  height: 220,
  thickness: 5,
  base: true,
  handle: { length: 200, width: 32 },
};
const vase: Spec = {
  form: 'frustum',
  bottom: 130,
  top: 190,
  height: 260,
  seam: 8,
  shrinkage: 0.12,
  base: true,
};

/** A page's point on its plane. */
const onPlane = ({ origin, window }: Sheet, [x, y]: Point): Point => [
  x - window.left + origin[0],
  y - window.top + origin[1],
];

describe('the pages of a set', () => {
  test.each(['A4', 'A3', 'Letter', 'Tabloid', 'roll 610'])(
    'hold every piece, and pass every check, on %s',
    (paper) => {
      for (const spec of [jug, vase]) {
        const { sheets } = sheetsOf(spec, paper);
        expect(sheets.checks.map(({ sentence, passed }) => (passed ? '' : sentence)).join('')).toBe('');
        expect(sheets.sheets.map(({ page }) => page)).toEqual(sheets.sheets.map((_, at) => at + 1));
      }
    },
  );

  test('a cylinder 90 mm across and 120 mm high takes two pages of A4, and one of A3', () => {
    const spec: Spec = { form: 'cylinder', diameter: 90, height: 120 };
    expect(sheetsOf(spec, 'A4').sheets.sheets).toHaveLength(2);
    expect(sheetsOf(spec, 'A3').sheets.sheets).toHaveLength(1);
  });

  test('put together along their trim lines show each line once, at its true length', () => {
    const template = sheetsOf(vase, 'A4');
    const { page, sheets } = template.sheets;
    const kept = sheets.flatMap((sheet) => {
      const { width, height } = sheet.window;
      const cut = sheet.trims.filter((trim) => trim.cut).map(({ neighbour }) => neighbour);
      const trimmed = (column: number, row: number) =>
        cut.some((n) => {
          const other = sheets[n - 1]!;
          return other.column === sheet.column + column && other.row === sheet.row + row;
        });
      const goesOn = (column: number, row: number) =>
        sheets.some(
          (s) => s.plane === sheet.plane && s.column === sheet.column + column && s.row === sheet.row + row,
        );
      const half = page.overlap / 2;
      const left = sheet.origin[0] + (trimmed(-1, 0) ? half : 0);
      const top = sheet.origin[1] + (trimmed(0, -1) ? half : 0);
      const right = sheet.origin[0] + width - (goesOn(1, 0) ? half : 0);
      const bottom = sheet.origin[1] + height - (goesOn(0, 1) ? half : 0);
      return sheet.lines
        .filter(({ pen }) => pen === 'cut')
        .map(({ points, closed }) => {
          const line = points.map((point) => onPlane(sheet, point));
          return lengthWithin(closed ? [...line, line[0]!] : line, left, top, right, bottom);
        });
    });
    const whole = template.made.pieces.reduce((sum, { outline }) => sum + lengthOf(outline, true), 0);
    expect(kept.reduce((a, b) => a + b, 0)).toBeCloseTo(whole, 4);
  });

  test('are joined by marks that both neighbours show at one place of the plane, each label on those two only', () => {
    const { sheets } = sheetsOf(vase, 'A4').sheets;
    const seen = new Map<string, { page: number; to: number; at: Point }[]>();
    for (const sheet of sheets)
      for (const { label, at, to } of sheet.joins)
        seen.set(label, [...(seen.get(label) ?? []), { page: sheet.page, to, at: onPlane(sheet, at) }]);
    expect(seen.size).toBeGreaterThan(5);
    for (const [label, both] of seen) {
      expect(both, label).toHaveLength(2);
      const [one, other] = both;
      expect([one!.page, one!.to]).toEqual([other!.to, other!.page]);
      expect(one!.at[0]).toBeCloseTo(other!.at[0], 9);
      expect(one!.at[1]).toBeCloseTo(other!.at[1], 9);
    }
  });

  test('with marks at uneven places: turned round, a page does not fit', () => {
    const { sheets } = sheetsOf({ form: 'cylinder', diameter: 110, height: 200 }, 'A4').sheets;
    const [first] = sheets;
    const shares = first!.joins.map(({ at }) =>
      first!.trims[0]!.from[0] === first!.trims[0]!.to[0]
        ? (at[1] - first!.window.top) / first!.window.height
        : (at[0] - first!.window.left) / first!.window.width,
    );
    expect(shares).toHaveLength(2);
    for (const share of shares)
      expect(shares.some((other) => Math.abs(1 - share - other) < 0.02)).toBe(false);
  });

  test('never lay one piece over another', () => {
    const form = fc.record({
      sides: fc.integer({ min: 3, max: 9 }),
      bottomSide: fc.integer({ min: 20, max: 90 }),
      topSide: fc.integer({ min: 20, max: 90 }),
      height: fc.integer({ min: 40, max: 260 }),
    });
    fc.assert(
      fc.property(form, fc.constantFrom('A4', 'Letter', 'A3'), (measures, paper) => {
        const set = made({
          form: 'polygon',
          ...measures,
          faces: 'apart',
          base: true,
          handle: { length: 120, width: 25, endWidth: 15 },
          sizes: [
            { name: 'small', scale: 0.7 },
            { name: 'large', scale: 1 },
          ],
        });
        for (const { placed } of layOut(set.pieces, pageOn(paperNamed(paper)!)))
          for (const piece of placed)
            for (const other of placed)
              if (piece !== other)
                expect(
                  piece.outline.some((point) => inside(other.outline, point)),
                  `${piece.name} on ${other.name}`,
                ).toBe(false);
      }),
      { numRuns: 20 },
    );
  });

  test('small pieces go where a printed page has room: a handle needs no page of its own', () => {
    const { base: _, ...wallOnly } = vase as Extract<Spec, { form: 'frustum' }>;
    const withHandle = { ...wallOnly, handle: { length: 90, width: 25 } };
    expect(sheetsOf(withHandle).sheets.sheets.length).toBe(sheetsOf(wallOnly).sheets.sheets.length);
  });

  test('a jug of seven sides with its base and handle goes on three sheets of A4', () => {
    const sold: Spec = {
      ...JUG_WITH_HANDLE,
      shrinkage: 0.12,
    };
    expect(sheetsOf(sold).sheets.sheets.length).toBe(3);
  });

  test('a name stands clear of folds, marks and the strips where pages are joined', () => {
    for (const { page, sheets } of [sheetsOf(vase).sheets, sheetsOf(jug).sheets])
      for (const { texts, lines, window, joins } of sheets)
        for (const { at, size } of texts) {
          for (const { points } of lines) expect(toLine(points, at)).toBeGreaterThan(size / 2);
          if (joins.length === 0) continue;
          expect(at[0] - window.left).toBeGreaterThan(page.overlap);
          expect(window.left + window.width - at[0]).toBeGreaterThan(page.overlap);
        }
  });

  test('a roll is cut off below the last piece', () => {
    const { page } = sheetsOf(vase, 'roll 610').sheets;
    expect(page.paper).toMatchObject({ name: 'Roll 610 mm', width: 610 });
    expect(page.paper.height).toBeGreaterThan(300);
    expect(page.paper.height).toBeLessThan(900);
  });
});

describe('what is looked at before a set is given out', () => {
  const page = pageOn(PAPERS.A4);
  const set = made({ form: 'cylinder', diameter: 50, height: 80, base: true });
  const failed = (pieces: typeof set.pieces, change = (sheets: readonly Sheet[]) => sheets) => {
    const planes = layOut(set.pieces, page);
    const cut = cutUp(planes, page);
    return checksOf({ ...set, pieces }, planes, page, change(cut.sheets))
      .filter(({ passed }) => !passed)
      .map(({ sentence }) => sentence);
  };

  test('finds nothing wrong with a sound set', () => {
    expect(failed(set.pieces)).toEqual([]);
  });

  test('finds a piece that is on no page, and one that lost a part', () => {
    expect(failed([...set.pieces, { ...set.pieces[0]!, name: 'lid' }])).toContain('“lid” is on no page.');
    expect(failed(set.pieces, (sheets) => sheets.slice(1))[0]).toMatch(/Part of “.*” is on no page/);
  });

  test('finds a line in the unprintable margin', () => {
    const astray = (sheets: readonly Sheet[]) =>
      sheets.map((sheet) => ({
        ...sheet,
        lines: sheet.lines.map((line) => ({
          ...line,
          points: line.points.map(([x, y]): Point => [x - 9, y]),
        })),
      }));
    expect(failed(set.pieces, astray)).toEqual([
      expect.stringMatching(/runs into the 8 mm that printers leave blank/),
    ]);
  });

  test('finds edges that do not meet, and a line drawn off its length', () => {
    const wall = pieceOf(set);
    const edges = wall.edges.map((edge) =>
      edge.name === 'left seam' ? { ...edge, length: 81, joins: { ...edge.joins!, length: 81 } } : edge,
    );
    expect(failed([{ ...wall, edges }, pieceOf(set, 'base')])).toEqual([
      'The two edges of the joint “seam” differ by 1.00 mm.',
      'The edge “left seam” of “wall” is drawn 1.00 mm off its length.',
    ]);
    expect(edgeOf(wall, 'left seam').length).toBe(80);
  });

  test('finds an outline that crosses itself', () => {
    const wall = pieceOf(set);
    const [a, b, c, d] = wall.outline;
    expect(failed([{ ...wall, outline: [a!, c!, b!, d!] }, pieceOf(set, 'base')])).toContain(
      'The outline of “wall” crosses itself.',
    );
  });
});

describe('what cannot be made is refused by name', () => {
  test.each([
    [
      { form: 'cylinder', diameter: 0.01, height: 120 },
      '“diameter” is 0.01; it should be a number of mm from 5 to 2000.',
    ],
    [
      { form: 'cylinder', diameter: 90, height: 10_000 },
      '“height” is 10000; it should be a number of mm from 5 to 2000.',
    ],
    [
      { form: 'cylinder', diameter: -90, height: 120 },
      '“diameter” is -90; it should be a number of mm from 5 to 2000.',
    ],
    [{ form: 'cylinder', height: 120 }, '“diameter” is missing; it should be a number of mm from 5 to 2000.'],
    [
      { form: 'cylinder', diameter: 90, height: 120, shrinkage: 1 },
      '“shrinkage” is 1; it should be a share of the wet length from 0 to 0.4 (0.12 is 12 %).',
    ],
    [
      { form: 'cylinder', diameter: 90, height: 120, diametre: 4 },
      '“diametre” is not known for this form; leave it out or look at its spelling.',
    ],
    [
      { form: 'teapot' },
      '“form” is “teapot”; it should be one of cylinder, frustum, polygon, oval, box, bowl, sphere, drawing.',
    ],
    [
      { form: 'frustum', bottom: 0, top: 0, height: 50 },
      '“bottom” and “top” are both 0; one of them should be 5 mm or more.',
    ],
    [
      { form: 'box', length: 100, width: 60, height: 50, corner: 31 },
      '“corner” is 31; it should be at most half the shorter side, 30 mm.',
    ],
    [
      { form: 'cylinder', diameter: 8, height: 50, thickness: 8 },
      '“thickness” leaves nothing of “diameter”: the wall is thicker than the form there.',
    ],
    [
      { form: 'cylinder', diameter: 500, height: 50, sizes: [{ name: 'huge', scale: 9 }] },
      '“sizes.0.scale” is 9, which makes “diameter” of the size huge 4500 mm; it should come to a number of mm from 5 to 2000.',
    ],
    ['a jug', '“the spec” is “a jug”; it should be a group of fields.'],
  ])('%j', (spec, sentence) => {
    expect(wrongWith(spec)).toEqual([sentence]);
  });

  test('a paper that is not kept here', () => {
    expect(wrongWith({ form: 'cylinder', diameter: 90, height: 120 }, 'A7')[0]).toMatch(
      /“paper” is “A7”; it should be A4/,
    );
  });

  test('a set of too many pages', () => {
    expect(wrongWith({ form: 'cylinder', diameter: 2000, height: 2000 }, 'A4')[0]).toMatch(
      /This would take \d+ pages of A4, and at most 80 go into a set; choose a larger paper/,
    );
  });

  test('and anything else is refused too, whatever it is', () => {
    fc.assert(
      fc.property(fc.anything(), (anything) => {
        expect(wrongWith(anything).length).toBeGreaterThan(0);
      }),
      { numRuns: 200 },
    );
  });
});

/** Length of the parts of a line within a box, in small steps cut at its sides. */
function lengthWithin(
  line: readonly Point[],
  left: number,
  top: number,
  right: number,
  bottom: number,
): number {
  let sum = 0;
  for (let at = 1; at < line.length; at++) {
    const [a, b] = [line[at - 1]!, line[at]!];
    const cuts = [0, 1];
    for (const [axis, limit] of [
      [0, left],
      [0, right],
      [1, top],
      [1, bottom],
    ] as const) {
      const run = b[axis] - a[axis];
      const share = (limit - a[axis]) / run;
      if (run !== 0 && share > 0 && share < 1) cuts.push(share);
    }
    cuts.sort((p, q) => p - q);
    for (let cut = 1; cut < cuts.length; cut++) {
      const middle = (cuts[cut - 1]! + cuts[cut]!) / 2;
      const [x, y] = [a[0] + (b[0] - a[0]) * middle, a[1] + (b[1] - a[1]) * middle];
      if (x >= left && x <= right && y >= top && y <= bottom)
        sum += (cuts[cut]! - cuts[cut - 1]!) * Math.hypot(b[0] - a[0], b[1] - a[1]);
    }
  }
  return sum;
}
