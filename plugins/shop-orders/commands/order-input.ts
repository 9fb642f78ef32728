/** What an order says when it comes in, is changed, or comes in again. */
import { z } from 'zod';
import { count, day, handle, id, money, name } from '../../../server/contract/studio/values.ts';
import { freeText, type TextRef } from '../../../server/contract/text.ts';
import { country, wants } from '../values.ts';

export const MOST_ADDRESS_LINES = 10;

const plainLines = (text: string): string[] =>
  text
    .split(/\r\n|\n|\r|\|/)
    .map((line) => line.trim())
    .filter(Boolean);

/** An address is erased with its buyer, so the decider sees a reference; how it must look is said here. */
const address = z
  .string()
  .transform((text) => plainLines(text).join('\n'))
  .pipe(
    z
      .string()
      .min(1, 'an address')
      .max(1_000, 'at most 1000 characters')
      .refine(
        (text) => text.split('\n').length <= MOST_ADDRESS_LINES,
        `an address of at most ${MOST_ADDRESS_LINES} lines, as fits on a label`,
      ),
  ) as unknown as z.ZodType<TextRef, string>;

const email = z
  .string()
  .trim()
  .max(254)
  .regex(/^[^\s@]+@[^\s@]+$/, 'an e-mail address') as unknown as z.ZodType<TextRef, string>;

export const lineInput = z.strictObject({
  /** Its name or handle. */
  item: name,
  quantity: count,
  /** Of one. */
  price: money.optional(),
});
export type LineInput = z.infer<typeof lineInput>;

export const said = {
  name: freeText(200).optional(),
  email: email.optional(),
  address: address.optional(),
  postcode: freeText(20).optional(),
  country: country.optional(),
  promise: day.optional(),
  lines: z.array(lineInput).min(1).max(500).optional(),
  postage: money.optional(),
  wants: wants.optional(),
  note: freeText().optional(),
};

export const placeInput = z.strictObject({
  ...said,
  /** As the shop numbers it; one is given when it has none. */
  number: z.string().trim().min(1).max(60).optional(),
  source: handle.optional(),
  buyer: id,
  name: freeText(200),
  country,
  lines: z.array(lineInput).min(1).max(500),
  way: z.enum(['hand', 'file', 'feed']).default('hand'),
});

export const TEXTS = ['name', 'email', 'address', 'postcode', 'note'] as const;
