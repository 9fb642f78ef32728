/** Small shapes that the shop's events and commands share. */
import { z } from 'zod';
import { paperRef } from '../../server/contract/handout.ts';
import { count, handle, handleOf, id, money, name } from '../../server/contract/studio/values.ts';
import { isCountry } from './post/countries.ts';

/** Where an order comes from when nothing else is said: one shop, whatever way its orders arrive. */
export const SHOP = 'shop';

/** 'shop/1043': where it comes from and its number there, so that the same order is one however it arrives. */
export const orderKey = z.string().regex(/^[\p{L}\p{N}-]{1,40}\/[^\s:/]{1,60}$/u, 'an order like shop/1043');

/** An order's number as it is compared: ' #1043 ' and '1043' are one. */
export const plainNumber = (number: string): string =>
  number
    .normalize('NFKC')
    .trim()
    .replace(/^#\s*/, '')
    .toUpperCase()
    .replace(/[\s:/\\]+/g, '-');

export const orderKeyOf = (number: string, source = SHOP): string =>
  `${handleOf(source) || SHOP}/${plainNumber(number)}`;

export const ITEM_KINDS = ['template', 'stamps', 'pot', 'download', 'other'] as const;
export type ItemKind = (typeof ITEM_KINDS)[number];

/** mm */
const length = z.number().positive().max(3_000);
export const measures = z.strictObject({ length, width: length, thickness: length });
export type Measures = z.infer<typeof measures>;
/** g */
export const grams = z.number().int().min(1).max(100_000);

export const country = z.string().refine(isCountry, 'a country’s two letters like GB or JP (ISO 3166-1)');

/** The Harmonized System: six digits are the same all over the world, countries add more. */
export const hs = z
  .string()
  .regex(/^\d{4}(\.?\d{2}){0,3}$/, 'an HS number of 4, 6, 8 or 10 digits like 4911.99');

/** What is known of a thing that is sold. */
export const itemFacts = z.strictObject({
  name,
  kind: z.enum(ITEM_KINDS),
  /** Of one, ready to be packed. */
  weight: grams.optional(),
  size: measures.optional(),
  /** Printed sheets in one. */
  sheets: count.optional(),
  price: money.optional(),
  /** What it is, for the customs form. */
  content: z.string().trim().min(1).max(80).optional(),
  hs: hs.optional(),
  origin: country.optional(),
  /** Days from beginning to print or make more until they are ready to pack. */
  leadDays: z.number().int().min(0).max(365).optional(),
  /** They are printed or made in multiples of this. */
  runOf: count.optional(),
  /** A pot or second: the piece of the studio that it is. */
  piece: z.string().optional(),
  /** SHA-256 of the PDF that is handed out. */
  file: z
    .string()
    .regex(/^[0-9a-f]{64}$/)
    .optional(),
  /** In the place of a file: the paper of another plugin that it is printed or handed out from. */
  paper: paperRef.optional(),
  /** What a buyer may do with it; stands on the pages of a file. */
  licence: z.string().trim().min(1).max(200).optional(),
});
export type ItemFacts = z.infer<typeof itemFacts>;

export const lineId = z.string().regex(/^[0-9a-z]{1,12}$/, 'a line’s id');
export const line = z.strictObject({
  line: lineId,
  item: handle,
  quantity: count,
  /** Of one. */
  price: money.optional(),
  /** It is handed out as a file and needs no post. */
  download: z.boolean().optional(),
});
export type Line = z.infer<typeof line>;

/** What the buyer, or the shop's terms, ask of the post. */
export const wants = z.strictObject({
  tracked: z.boolean().optional(),
  /** Least compensation for a loss. */
  compensation: money.optional(),
});
export type Wants = z.infer<typeof wants>;

/** How something came to be noted. */
export const way = z.enum(['hand', 'file', 'feed']);
export type Way = z.infer<typeof way>;

/** Some of an order's line, in a parcel. */
export const content = z.strictObject({ order: orderKey, line: lineId, item: handle, quantity: count });
export type Content = z.infer<typeof content>;

export const parcelId = id;
export const FORMATS = ['P', 'G', 'E'] as const;
export type Format = (typeof FORMATS)[number];
