/**
 * A paper: what a plugin wants printed, as plain data in millimetres. The host draws it as a PDF, so a
 * plugin needs neither fonts nor a PDF library and can run in a process of its own.
 *
 * There are two forms: `sheets`, where every mark has its exact place, and `document`, whose blocks flow
 * over as many pages as they need. x runs to the right and y down from the upper left corner; type sizes
 * are the height of the em in mm (10 pt is 3.53 mm).
 */
import { z } from 'zod';
import { textRef } from './text.ts';

/** 0 is black, 1 is the white of the paper. */
export type Shade = z.infer<typeof shade>;
const shade = z.number().min(0).max(1);

/** No coordinate of a paper lies further out: the longest page that PDF knows is 14 400 points. */
export const LONGEST_MM = 5_080;
const mm = z
  .number()
  .min(-2 * LONGEST_MM)
  .max(2 * LONGEST_MM);
const length = z
  .number()
  .min(0)
  .max(2 * LONGEST_MM);

const personRef = z.strictObject({ person: z.string().min(1).max(200) });
const saidPart = z.union([z.string().max(20_000), personRef, textRef]);
/** Words; names of people and free texts are given as their references and filled in by the host. */
export const said = z.union([saidPart, z.array(saidPart).max(200)]);
export type Said = z.infer<typeof said>;

/** How a line is drawn. Lines of different meaning are told apart by their dashes. */
export const pen = z.strictObject({
  width: z.number().min(0.01).max(50),
  /** Lengths of dash and gap in turn, in mm. */
  dash: z.array(z.number().min(0.01).max(200)).min(2).max(8).optional(),
  shade: shade.optional(),
  ends: z.enum(['butt', 'round']).optional(),
});
export type Pen = z.infer<typeof pen>;

const drawn = { pen: pen.optional(), fill: shade.optional() };
const placed = { x: mm, y: mm };
const sized = { width: length, height: length };

export const words = z.strictObject({
  mark: z.literal('words'),
  text: said,
  ...placed,
  /** Of the em, in mm. */
  size: z.number().min(0.5).max(500),
  weight: z.enum(['regular', 'bold']).optional(),
  /** Of the box that begins at x, y; without it each line is as wide as its words. */
  width: length.optional(),
  height: length.optional(),
  /** `wrap` breaks lines (the default with a width); `shrink` makes them smaller until they fit; `cut` ends one line with an ellipsis. */
  fit: z.enum(['wrap', 'shrink', 'cut']).optional(),
  /** Smallest size that `shrink` comes to; what is too much even then is cut. 1.4 when not said. */
  least: z.number().min(0.5).max(500).optional(),
  /** `start` is left, or right for what is written from right to left. Without a width: about x. */
  align: z.enum(['start', 'left', 'middle', 'right']).optional(),
  /** In the height of the box, or about y; `baseline` of the first line. `top` when not said. */
  vertical: z.enum(['top', 'middle', 'bottom', 'baseline']).optional(),
  /** Distance of lines, as a multiple of the size. 1.3 when not said. */
  leading: z.number().min(0.8).max(4).optional(),
  /** Extra space after each letter, in mm. */
  spacing: z.number().min(0).max(50).optional(),
  /** Degrees clockwise, about x and y. */
  turn: z.number().min(-360).max(360).optional(),
  /** By the first letter that has one, when not said. */
  direction: z.enum(['auto', 'ltr', 'rtl']).optional(),
  /** BCP 47; decides between Japanese, Korean and the two Chinese ways of writing the same character. */
  language: z.string().max(35).optional(),
  shade: shade.optional(),
  /** A heading of that level, for who has the paper read aloud. */
  heading: z.literal([1, 2, 3]).optional(),
});
export type Words = z.infer<typeof words>;

export const mark = z.discriminatedUnion('mark', [
  z.strictObject({
    mark: z.literal('line'),
    points: z
      .array(z.tuple([mm, mm]))
      .min(2)
      .max(100_000),
    closed: z.boolean().optional(),
    ...drawn,
  }),
  /** `d` is SVG path data in mm. */
  z.strictObject({ mark: z.literal('path'), d: z.string().min(1).max(4_000_000), ...drawn }),
  z.strictObject({ mark: z.literal('box'), ...placed, ...sized, radius: length.optional(), ...drawn }),
  z.strictObject({ mark: z.literal('circle'), ...placed, radius: length, ...drawn }),
  words,
  z.strictObject({
    mark: z.literal('picture'),
    ...placed,
    ...sized,
    type: z.enum(['image/png', 'image/jpeg']),
    base64: z.string().min(1).max(30_000_000),
    /** Whole inside the box, filling it with what is over cut off, or stretched to it. `contain` when not said. */
    fit: z.enum(['contain', 'cover', 'stretch']).optional(),
    /** What it shows, for who cannot see it. */
    title: z.string().max(500).optional(),
  }),
  /** A QR code (ISO/IEC 18004) of `size` mm without its quiet zone: leave 4 modules white around it. */
  z.strictObject({
    mark: z.literal('qr'),
    ...placed,
    size: z.number().min(4).max(400),
    text: z.string().min(1).max(1_000),
    level: z.enum(['L', 'M', 'Q', 'H']).optional(),
  }),
  /** Marks moved by x and y, turned (degrees clockwise) and made larger together; only what is in `clip` shows. */
  z.strictObject({
    mark: z.literal('group'),
    x: mm.optional(),
    y: mm.optional(),
    turn: z.number().min(-360).max(360).optional(),
    scale: z.number().min(0.001).max(1_000).optional(),
    clip: z.strictObject({ ...placed, ...sized }).optional(),
    /** The group is one picture, and this is what it shows: read aloud in place of what is in it. */
    title: z.string().max(500).optional(),
    get marks(): z.ZodArray<typeof mark> {
      return z.array(mark).max(100_000);
    },
  }),
]);
export type Mark = z.infer<typeof mark>;

export const sheet = z.strictObject({
  /** Of the sheet of paper. */
  width: z.number().min(10).max(LONGEST_MM),
  height: z.number().min(10).max(LONGEST_MM),
  marks: z.array(mark).max(100_000),
});
export type Sheet = z.infer<typeof sheet>;

const drawing = z.strictObject({
  ...sized,
  marks: z.array(mark).max(20_000),
  title: z.string().max(500).optional(),
});
export type Drawing = z.infer<typeof drawing>;

const cell = z.union([
  said,
  z.strictObject({ text: said.optional(), weight: words.shape.weight, drawing: drawing.optional() }),
]);
export type PaperCell = z.infer<typeof cell>;

export const block = z.discriminatedUnion('block', [
  z.strictObject({ block: z.literal('heading'), text: said, level: z.literal([1, 2, 3]).optional() }),
  z.strictObject({
    block: z.literal('paragraph'),
    text: said,
    size: z.enum(['small', 'body', 'large']).optional(),
    weight: words.shape.weight,
  }),
  z.strictObject({
    block: z.literal('list'),
    items: z.array(said).max(1_000),
    numbered: z.boolean().optional(),
  }),
  /** Names with what is said of each, in two columns. */
  z.strictObject({ block: z.literal('facts'), facts: z.array(z.tuple([said, said])).max(200) }),
  /** The head row comes again on every page. `end` columns hold figures and stand to the right. */
  z.strictObject({
    block: z.literal('table'),
    columns: z
      .array(
        z.strictObject({
          label: said,
          align: z.enum(['start', 'end']).optional(),
          /** Share of the width left over by the others; by what is in it when not said. */
          share: z.number().min(0.1).max(100).optional(),
          /** Exact width in mm. */
          width: z.number().min(3).max(400).optional(),
        }),
      )
      .min(1)
      .max(24),
    rows: z.array(z.array(cell).max(24)).max(20_000),
    size: z.enum(['small', 'body']).optional(),
  }),
  z.strictObject({
    block: z.literal('drawing'),
    ...drawing.shape,
    align: z.enum(['left', 'middle']).optional(),
  }),
  z.strictObject({ block: z.literal('rule') }),
  z.strictObject({ block: z.literal('space'), height: z.number().min(0).max(400) }),
  z.strictObject({ block: z.literal('page-break') }),
]);
export type Block = z.infer<typeof block>;

const about = {
  /** What the paper is, for the list of open documents and who reads with a screen reader. */
  title: said,
  /** Name of the file without its ending. */
  file: z
    .string()
    .regex(/^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,80}$/u)
    .optional(),
  /** BCP 47 of most of its words; en-GB when not said. */
  language: z.string().max(35).optional(),
};

export const paperShape = z.discriminatedUnion('form', [
  z.strictObject({ form: z.literal('sheets'), ...about, sheets: z.array(sheet).min(1).max(2_000) }),
  z.strictObject({
    form: z.literal('document'),
    ...about,
    paper: z.enum(['A4', 'Letter']),
    landscape: z.boolean().optional(),
    blocks: z.array(block).max(5_000),
    /** Stands at the foot of each page, beside the studio's name, the day and the number of the page. */
    foot: said.optional(),
  }),
]);
export type Paper = z.infer<typeof paperShape>;

/** Sheets of paper by name, upright, in mm (ISO 216; ANSI/ASME Y14.1 for Letter and Tabloid). */
export const PAPERS = {
  A4: { width: 210, height: 297 },
  A3: { width: 297, height: 420 },
  Letter: { width: 215.9, height: 279.4 },
  Tabloid: { width: 279.4, height: 431.8 },
} as const;
export type PaperName = keyof typeof PAPERS;
