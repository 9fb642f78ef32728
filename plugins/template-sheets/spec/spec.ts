/** What a template is made from: a form's measures, or a drawing. All in mm; fired sizes where `shrinkage` is given. */
import { z } from 'zod';

/** A pot smaller or larger than this is a slip of the pen. */
export const SMALLEST = 5;
export const LARGEST = 2_000;

const between = (least: number, most: number) => z.number().min(least).max(most);
const size = between(SMALLEST, LARGEST);
/** A width that may also come to a point. */
const sizeOrPoint = z.union([z.literal(0), size]);

export const thickness = z.union([
  /** The wall, the measures being those of the outside. */
  between(0.5, 50),
  z.strictObject({ wall: between(0.5, 50), measured: z.enum(['outside', 'middle', 'inside']) }),
]);

/** How wall meets wall: a scarf cut at a slope (`bevel`), or square ends side by side (`butt`). */
export const seam = z.union([
  z.enum(['bevel', 'butt']),
  /** A bevel of this width. */
  between(0, 50),
  z.strictObject({ joint: z.enum(['bevel', 'butt']), allowance: between(0, 50) }),
]);

export const handle = z.strictObject({
  length: size,
  width: size,
  /** At the other end, where the strip tapers. */
  endWidth: size.optional(),
  count: z.int().min(1).max(12).optional(),
});

export const setSize = z.strictObject({ name: z.string().trim().min(1).max(40), scale: between(0.1, 10) });

const common = {
  name: z.string().trim().min(1).max(120).optional(),
  thickness: thickness.optional(),
  seam: seam.optional(),
  /** Linear shrinkage from wet to fired as a share of the wet length (ASTM C326). */
  shrinkage: between(0, 0.4).optional(),
  /** `under`: the wall stands on the base (also `true`); `inside`: the wall goes round it. */
  base: z.union([z.boolean(), z.enum(['under', 'inside'])]).optional(),
  handle: handle.optional(),
  /** The sizes of a set, each a multiple of the measures; the wall stays as thick. */
  sizes: z.array(setSize).min(1).max(6).optional(),
  /** The sizes drawn inside one another; else each on sheets of its own. */
  nested: z.boolean().optional(),
};

const cylinder = z.strictObject({ form: z.literal('cylinder'), diameter: size, height: size, ...common });
const frustum = z.strictObject({
  form: z.literal('frustum'),
  bottom: sizeOrPoint,
  top: sizeOrPoint,
  height: size,
  ...common,
});
const polygon = z.strictObject({
  form: z.literal('polygon'),
  sides: z.int().min(3).max(48),
  bottomSide: sizeOrPoint,
  /** As long as `bottomSide` when left out: straight walls. */
  topSide: sizeOrPoint.optional(),
  height: size,
  /** `joined`: one wall with folds; `apart`: a slab for each side. */
  faces: z.enum(['joined', 'apart']).optional(),
  ...common,
});
const oval = z.strictObject({
  form: z.literal('oval'),
  length: size,
  width: size,
  height: size,
  ...common,
});
const box = z.strictObject({
  form: z.literal('box'),
  length: size,
  width: size,
  height: size,
  /** Radius of the upright corners. */
  corner: between(0, LARGEST / 2).optional(),
  ...common,
});
const { seam: _, ...withoutSeam } = common;
const { base: __, ...gored } = withoutSeam;
const bowl = z.strictObject({
  form: z.literal('bowl'),
  rim: size,
  depth: size,
  /** Diameter of a flat bottom. */
  foot: sizeOrPoint.optional(),
  /** Wedges cut out of one round slab; or `gores`, separate slabs from foot to rim. One of the two. */
  darts: z.int().min(3).max(48).optional(),
  gores: z.int().min(3).max(48).optional(),
  ...gored,
});
const sphere = z.strictObject({
  form: z.literal('sphere'),
  diameter: size,
  gores: z.int().min(3).max(48),
  /** Diameter of a round opening at the top. */
  opening: sizeOrPoint.optional(),
  ...gored,
});

/** SVG path data in mm. */
const path = z.string().min(1).max(400_000);
const drawnPiece = z.strictObject({
  name: z.string().trim().min(1).max(80),
  outline: path,
  holes: z.array(path).max(200).optional(),
  lines: z
    .array(z.strictObject({ pen: z.enum(['fold', 'bevel', 'mark']), path }))
    .max(2_000)
    .optional(),
  count: z.int().min(1).max(99).optional(),
});
const drawing = z.strictObject({
  form: z.literal('drawing'),
  pieces: z.array(drawnPiece).min(1).max(100),
  name: common.name,
  shrinkage: common.shrinkage,
  sizes: common.sizes,
  nested: common.nested,
});

export const spec = z.discriminatedUnion('form', [
  cylinder,
  frustum,
  polygon,
  oval,
  box,
  bowl,
  sphere,
  drawing,
]);
export type Spec = z.infer<typeof spec>;
export type Form = Spec['form'];
export type Of<F extends Form> = Extract<Spec, { form: F }>;
export type Measured = Exclude<Spec, { form: 'drawing' }>;
