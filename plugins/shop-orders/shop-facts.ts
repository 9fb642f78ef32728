/** The shop's own settings: what holds until the user says otherwise, and what they may be. */
import { z } from 'zod';
import { day, handle, name } from '../../server/contract/studio/values.ts';
import { textRef } from '../../server/contract/text.ts';
import { country, grams, measures } from './values.ts';

/** A bag, tube or box, with what it weighs empty and measures outside when it is closed. */
export const packaging = z.strictObject({
  id: handle,
  name,
  weight: grams,
  /** Outside, when it takes its shape from the box; a bag takes that of what is in it. */
  size: measures.optional(),
});
export type Packaging = z.infer<typeof packaging>;

/** One unit of `of` is worth `rate` units of `to`; the user's own figure. */
const rate = z.strictObject({
  of: z.string().regex(/^[A-Z]{3}$/),
  to: z.string().regex(/^[A-Z]{3}$/),
  rate: z.number().positive().max(1e9),
  day,
});

const mm = z.number().min(0).max(500);
/** As in label-grid.ts; lengths in mm. */
export const labelGrid = z.strictObject({
  paper: z.enum(['A4', 'Letter', 'one']),
  columns: z.number().int().min(1).max(10),
  rows: z.number().int().min(1).max(30),
  width: mm.min(40).max(300),
  height: mm.min(20).max(300),
  left: mm,
  top: mm,
  across: mm.min(20),
  down: mm.min(10),
});

export const shopFacts = z.strictObject({
  /** Days in which an order is promised to be posted when it says nothing itself. */
  promiseDays: z.number().int().min(0).max(365),
  /** Days in the post after which a parcel is taken to have arrived when nobody said anything; none: never. */
  assumeDays: z.number().int().min(7).max(730).optional(),
  /** Where it is posted from. */
  origin: country.optional(),
  /** Name and address on labels and customs forms, lines by line breaks. */
  sender: textRef.optional(),
  packagings: z.array(packaging).max(50),
  /** The sheets of labels that are in the drawer. */
  labels: labelGrid.optional(),
  rates: z.array(rate).max(200),
  /** Up to this value, in SDR, form CN22 will do; above it CN23. The rate is the user's: SDR for one unit of currency. */
  customs: z.strictObject({ sdr: z.number().positive(), from: day }),
  /** How likely what is asked for is to be there, when it is printed or made anew. */
  serviceLevel: z.number().min(0.5).max(0.999),
});
export type ShopFacts = z.infer<typeof shopFacts>;

/**
 * Until the user says otherwise. CN22 up to 300 SDR: Universal Postal Union, Convention Manual; the day is
 * the one on which it was looked up.
 */
export const UNTIL_SAID: ShopFacts = {
  promiseDays: 3,
  assumeDays: 60,
  packagings: [],
  rates: [],
  customs: { sdr: 300, from: '2026-01-01' },
  serviceLevel: 0.95,
};
