/** Sizes of a set inside one another on the sheets, or each on sheets of its own. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Piece } from '../../../plugins/template-sheets/piece.ts';
import { inside, toOutline } from '../../../plugins/template-sheets/shape/inside.ts';
import { bySize, nested } from '../../../plugins/template-sheets/sheets/nests.ts';
import { SIZE_DASHES, STROKES } from '../../../plugins/template-sheets/sheets/pens.ts';
import type { Spec } from '../../../plugins/template-sheets/spec/spec.ts';
import { FACETED_JUG } from '../../support/faceted-jug.ts';
import { made, sheetsOf } from './made.ts';

const sizes = [
  { name: 'small', scale: 0.8 },
  { name: 'medium', scale: 1 },
  { name: 'large', scale: 1.25 },
];
const jug = {
  ...FACETED_JUG,
  sizes,
} as const satisfies Spec;
const names = ({ name, within = [] }: Piece): string[] => [name, ...within.map((piece) => piece.name)];

describe('the sizes of a set, inside one another', () => {
  test('are all there, each clear of the next larger by what a knife needs', () => {
    const measures = fc.record({
      bottom: fc.integer({ min: 40, max: 200 }),
      top: fc.integer({ min: 40, max: 200 }),
      height: fc.integer({ min: 40, max: 200 }),
      scale: fc.integer({ min: 40, max: 95 }),
    });
    fc.assert(
      fc.property(measures, ({ scale, ...frustum }) => {
        const two = [
          { name: 'less', scale: scale / 100 },
          { name: 'whole', scale: 1 },
        ];
        const { pieces } = made({ form: 'frustum', ...frustum, base: true, sizes: two });
        const nests = nested(pieces);
        expect(nests.flatMap(names).sort()).toEqual(pieces.map(({ name }) => name).sort());
        for (const { outline, within = [] } of nests)
          for (const inner of within)
            for (const point of inner.outline) {
              expect(inside(outline, point)).toBe(true);
              expect(toOutline(outline, point)).toBeGreaterThan(1.9);
            }
      }),
      { numRuns: 30, seed: 11 },
    );
  });

  test('have dashes of their own, that no other line has, and their name on every page that shows them', () => {
    const { sheets } = sheetsOf({ ...jug, nested: true }).sheets;
    const others = [STROKES.fold, STROKES.bevel, STROKES.mark, STROKES.trim].map(({ dash }) => dash.join());
    const dashes = SIZE_DASHES.map((dash) => dash.join());
    expect(new Set([...dashes, ...others]).size).toBe(dashes.length + others.length);
    for (const sheet of sheets) {
      // A stretch too near the window's edge for a word is named on the next page.
      const long = sheet.lines.filter(({ pen, points }) => pen === 'cut' && points.length > 4);
      const shown = new Set(long.map(({ nth }) => nth));
      const named = new Set(sheet.labels.map(({ text }) => text));
      expect(named.size).toBeGreaterThanOrEqual(shown.size);
      for (const { at } of sheet.labels) {
        expect(at[0]).toBeGreaterThan(sheet.window.left);
        expect(at[1]).toBeLessThan(sheet.window.top + sheet.window.height);
      }
    }
    expect(sheetsOf({ ...jug, nested: true }).sheets.checks.every(({ passed }) => passed)).toBe(true);
  });

  test('take fewer sheets than each by itself', () => {
    const pages = (spec: Spec) => sheetsOf(spec).sheets.sheets.length;
    expect(pages({ ...jug, nested: true })).toBeLessThan(pages({ ...jug, nested: false }));
  });

  test('that do not lie clear in one another stand side by side', () => {
    // A tenth of a millimetre smaller all round.
    const near = [
      { name: 'this', scale: 1 },
      { name: 'that', scale: 0.998 },
    ];
    const { pieces } = made({ form: 'cylinder', diameter: 60, height: 80, sizes: near });
    expect(nested(pieces).map(names)).toEqual([['wall, this'], ['wall, that']]);
  });
});

describe('the sizes of a set, each on sheets of its own', () => {
  test('never share a sheet, and each sheet says which it is of', () => {
    const { sheets } = sheetsOf({ ...jug, nested: false }).sheets;
    for (const { size, texts } of sheets)
      for (const { text } of texts) if (text.includes(', ')) expect(text.endsWith(`, ${size}`)).toBe(true);
    expect(new Set(sheets.map(({ size }) => size))).toEqual(new Set(['small', 'medium', 'large']));
    expect(bySize(made(jug).pieces).map((own) => own.length)).toEqual([2, 2, 2]);
  });
});
