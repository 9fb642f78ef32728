/** Small shapes shared by the studio's events and commands. */
import { z } from 'zod';
import { FIRING_ROLES, FURNITURE, GRADES, METHODS, OWNER_ROLES } from '../trade.ts';

/** A lot's id is a UUID; what is split off it has the lot's id, a dot and letters or digits. */
export const pieceId = z.string().regex(/^[0-9a-z-]{8,40}(\.[0-9a-z]{1,16})?$/, 'a piece id');
/** The lot that a piece was begun in: its stream's key. */
export const lotOf = (piece: string): string => {
  const dot = piece.indexOf('.');
  return dot < 0 ? piece : piece.slice(0, dot);
};

/** The same as `lotOf(piece) === lot`, without making a text of it. */
export const isOfLot = (piece: string, lot: string): boolean =>
  piece.startsWith(lot) && (piece.length === lot.length || piece[lot.length] === '.');

/** The portion of a lot with this id. */
export const portionIn = <P extends { readonly piece: string }>(
  lot: { readonly portions: readonly P[] },
  piece: string,
): P | undefined => lot.portions.find((portion) => portion.piece === piece);

export const id = z
  .string()
  .min(1)
  .max(64)
  .regex(/^[^\s:]+$/, 'an id has no spaces or colons');
/** Handle of a clay, glaze, schedule or kiln: its first name in lower case with hyphens. */
export const handle = z
  .string()
  .regex(
    /^[\p{Ll}\p{Lo}\p{Lm}\p{M}\p{N}]+(-[\p{Ll}\p{Lo}\p{Lm}\p{M}\p{N}]+)*$/u,
    'words in lower case with hyphens between them',
  )
  .max(80);
/** A name's handle: lower case, everything between words a hyphen; the same name gives the same handle. */
export const handleOf = (text: string): string =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{Ll}\p{Lo}\p{Lm}\p{M}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80)
    .replace(/-+$/, '');

/** A fault, repair or zone: one of the trade's, or the user's own. */
export const word = handle;
export const count = z.number().int().min(1).max(100_000);
export const name = z.string().trim().min(1).max(120);
export const mark = z
  .string()
  .trim()
  .min(1)
  .max(24)
  .regex(/^[^\s]+( [^\s]+)*$/, 'a foot mark');
/** Minor units (pence, cents) and the ISO 4217 code. */
export const money = z.strictObject({
  amount: z.number().int().min(0).max(1e11),
  currency: z.string().regex(/^[A-Z]{3}$/, 'a currency’s three letters like GBP'),
});
export type Money = z.infer<typeof money>;
/** Length in mm. */
export const mm = z.number().positive().max(5_000);
export const size = z.strictObject({
  width: mm.optional(),
  height: mm.optional(),
  depth: mm.optional(),
  measured: z.enum(['wet', 'dry', 'fired']),
});

export const owner = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('own') }),
  z.strictObject({ kind: z.enum(OWNER_ROLES), person: id }),
]);
export type Owner = z.infer<typeof owner>;

export const grade = z.enum(GRADES);
export const role = z.enum(FIRING_ROLES);
export const furniture = z.enum(FURNITURE);
export const layer = z.strictObject({
  glaze: handle,
  coats: z.number().int().min(1).max(20),
  method: z.enum(METHODS).optional(),
});
export type Layer = z.infer<typeof layer>;

export const place = z.strictObject({
  piece: pieceId,
  count,
  /** 1 is the top shelf. */
  shelf: z.number().int().min(1).max(40).optional(),
  position: z.string().trim().min(1).max(40).optional(),
  furniture: z.array(furniture).optional(),
});
export type Place = z.infer<typeof place>;

/** °C per hour to a target, then a hold in minutes. A negative rate cools. */
export const segment = z.strictObject({
  rate: z.number().min(-2_000).max(2_000),
  target: z.number().min(0).max(1_500),
  hold: z.number().min(0).max(10_080),
});

/** '022' to '01', then '1' to '14'. */
export const cone = z.string().regex(/^(0(0[1-9]|[1-9]|1\d|2[0-2])|[1-9]|1[0-4])$/, 'a cone from 022 to 14');

export const day = z.iso.date();
/** A day, or a moment with its offset. */
export const happenedAt = z.union([day, z.iso.datetime({ offset: true })]);
