/**
 * What a report answers, and how the page may draw it. Figures point at the
 * answer's rows by field name, so that every number is given once.
 */
import { z } from 'zod';

/** How a column's values read: rates are fractions 0..1, money is minor units of the row's `currency`. */
export const columnKind = z.enum([
  'text',
  'count',
  'number',
  'rate',
  'money',
  'day',
  'moment',
  'person',
  'mark',
  'code',
]);

export const column = z.strictObject({
  field: z.string(),
  label: z.string(),
  kind: columnKind,
  /** Row field that holds the address of the pieces (or firing, or story) behind the value. */
  behind: z.string().optional(),
  /** Left out on a phone's narrow screen. */
  wide: z.boolean().optional(),
});
export type Column = z.infer<typeof column>;

const over = {
  title: z.string(),
  /** Rows of this `kind` only; all when absent. */ only: z.string().optional(),
};

export const figure = z.discriminatedUnion('figure', [
  z.strictObject({ figure: z.literal('table'), ...over, columns: z.array(column) }),
  z.strictObject({
    figure: z.literal('ranking'),
    ...over,
    label: z.string(),
    estimate: column,
    low: z.string(),
    high: z.string(),
    /** Field with the number of pieces: few pieces are drawn as an open dot. */
    pieces: z.string(),
  }),
  z.strictObject({
    figure: z.literal('series'),
    ...over,
    x: column,
    lines: z.array(z.strictObject({ field: z.string(), label: z.string(), kind: columnKind })),
    lower: z.string().optional(),
    upper: z.string().optional(),
    centre: z.string().optional(),
    out: z.string().optional(),
  }),
  /** Parts of a whole per row: firsts, seconds, wasters. */
  z.strictObject({ figure: z.literal('tally'), ...over, label: z.string(), parts: z.array(column) }),
  z.strictObject({ figure: z.literal('curve'), ...over, x: column, y: column }),
  /** A drawing to scale in mm, as SVG path data. */
  z.strictObject({
    figure: z.literal('plan'),
    ...over,
    width: z.number(),
    height: z.number(),
    shapes: z.array(
      z.strictObject({ d: z.string(), label: z.string(), pen: z.enum(['line', 'fill', 'dash']) }),
    ),
  }),
  z.strictObject({
    figure: z.literal('document'),
    ...over,
    type: z.literal('application/pdf'),
    base64: z.string(),
  }),
]);
export type Figure = z.infer<typeof figure>;

const cell = z.unknown();
export const answer = z.strictObject({
  report: z.string(),
  from: z.string().nullable(),
  to: z.string().nullable(),
  sentence: z.string(),
  rows: z.array(z.record(z.string(), cell)),
  notes: z.array(z.string()),
  figures: z.array(figure),
  /** Anything more that a page of its own needs (a piece's story). */
  more: z.record(z.string(), cell).optional(),
});
export type Answer = z.infer<typeof answer>;
