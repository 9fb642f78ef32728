/** What the page shows of a kept template, and gives back when it is changed. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { develop } from '../../../plugins/template-sheets/forms/develop.ts';
import { readSpec } from '../../../plugins/template-sheets/spec/read-spec.ts';
import type { Measured } from '../../../plugins/template-sheets/spec/spec.ts';
import { draftOf, firstDraft, specOf } from '../../../web/templates/draft.ts';
import { percentOf, shareOf, sizeDrafts, sizesOf } from '../../../web/templates/sizes.ts';

const mm = fc.integer({ min: 60, max: 900 });
const maybe = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined });
const forms = {
  cylinder: { diameter: mm, height: mm },
  frustum: { bottom: mm, top: fc.oneof(fc.constant(0), mm), height: mm },
  polygon: {
    sides: fc.integer({ min: 3, max: 12 }),
    bottomSide: mm,
    topSide: maybe(mm),
    height: mm,
    faces: maybe(fc.constantFrom('joined', 'apart')),
  },
  oval: { length: mm, width: mm, height: mm },
  box: { length: mm, width: mm, height: mm, corner: maybe(fc.integer({ min: 0, max: 20 })) },
};
const joints = {
  thickness: maybe(
    fc.oneof(
      fc.constantFrom(3, 4.5, 6),
      fc.record({ wall: fc.constantFrom(3, 5), measured: fc.constantFrom('outside', 'middle', 'inside') }),
    ),
  ),
  seam: maybe(
    fc.oneof(
      fc.constantFrom('bevel', 'butt', 0, 6),
      fc.record({ joint: fc.constantFrom('bevel', 'butt'), allowance: fc.constantFrom(0, 4) }),
    ),
  ),
  base: maybe(fc.constantFrom(true, false, 'under', 'inside')),
  handle: maybe(
    fc.record(
      { length: mm, width: mm, endWidth: mm, count: fc.integer({ min: 1, max: 4 }) },
      { requiredKeys: ['length', 'width'] },
    ),
  ),
};
const walled: fc.Arbitrary<Measured> = fc.oneof(
  ...Object.entries(forms).map(([form, measures]) =>
    fc
      .record({ form: fc.constant(form), ...measures, ...joints } as Record<string, fc.Arbitrary<unknown>>)
      .map((spec): Measured => JSON.parse(JSON.stringify(spec))),
  ),
);
const hollow: Measured[] = [
  { form: 'bowl', rim: 200, depth: 80, foot: 70, darts: 8, thickness: 5 },
  { form: 'bowl', rim: 200, depth: 80, gores: 6, handle: { length: 90, width: 20 } },
  { form: 'sphere', diameter: 120, gores: 12, thickness: { wall: 4, measured: 'inside' } },
];

const developed = (spec: unknown) => {
  const read = readSpec(spec);
  return 'spec' in read ? develop(read.spec) : read;
};

describe('a kept template that is changed on the page', () => {
  test('comes back whole: untouched, it makes the very same pieces', () => {
    fc.assert(
      fc.property(walled, (spec: Measured) => {
        expect(developed(specOf(draftOf(spec)))).toEqual(developed(spec));
      }),
      { numRuns: 60, seed: 6 },
    );
    for (const spec of hollow) expect(specOf(draftOf(spec))).toEqual(spec);
  });

  test('keeps what the page has no field for', () => {
    const later = {
      form: 'cylinder',
      diameter: 90,
      height: 120,
      spout: { width: 30 },
    } as unknown as Measured;
    expect(specOf(draftOf(later))).toEqual(later);
  });

  test('offers usual measures when its form is changed, and the old ones when it is changed back', () => {
    const draft = draftOf({ form: 'cylinder', diameter: 81, height: 120 });
    const box = { ...draft, form: 'box' as const };
    expect(specOf(box)).toMatchObject({
      form: 'box',
      length: Number(firstDraft.measures.length),
      height: 120,
    });
    expect(specOf({ ...box, form: 'cylinder' })).toEqual({ form: 'cylinder', diameter: 81, height: 120 });
  });
});

describe('percents on the page', () => {
  test('are the shares that were kept, to the last digit', () => {
    for (const share of [0.12, 0.1164, 0.125, 0.333333, 0.07]) expect(shareOf(percentOf(share))).toBe(share);
    expect(shareOf('')).toBeUndefined();
    const sizes = [
      { name: 'small', scale: 0.8 },
      { name: 'large', scale: 1.1 },
    ];
    expect(sizesOf(sizeDrafts({ sizes }), false)).toEqual({ sizes });
    expect(sizesOf(sizeDrafts({ sizes }), true)).toEqual({ sizes, nested: true });
  });
});
