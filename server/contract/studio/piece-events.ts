/** What is recorded of pieces and lots. */
import { z } from 'zod';
import { event } from '../plugin.ts';
import { textRef } from '../text.ts';
import { LEAVINGS, STAGES } from '../trade.ts';
import { count, handle, id, layer, mark, money, name, owner, pieceId, size, word } from './values.ts';

/** A fault as it goes along with a part split off a lot. */
export const carriedFault = z.strictObject({ entry: z.number().int(), count });

const splitPart = z.strictObject({
  piece: pieceId,
  count,
  mark: mark.optional(),
  faults: z.array(carriedFault).optional(),
});

export const pieceEvents = {
  'piece.begun': event({
    rank: 0,
    shape: z.strictObject({
      piece: pieceId,
      count,
      mark: mark.optional(),
      form: name.optional(),
      clay: handle.optional(),
      owner,
      maker: id.optional(),
      how: z.enum(['thrown', 'slab-built', 'coiled', 'pressed', 'cast']).optional(),
      size: size.optional(),
      price: money.optional(),
      secondPrice: money.optional(),
    }),
  }),
  'mark.reserved': event({
    rank: 0,
    /** Foot marks that a device holds for when it is offline. */
    shape: z.strictObject({ run: id, marks: z.array(mark).min(1).max(50) }),
  }),
  'piece.moved-on': event({
    rank: 10,
    shape: z.strictObject({ piece: pieceId, stage: z.enum(STAGES), count }),
  }),
  'lot.split': event({
    rank: 5,
    shape: z.strictObject({ piece: pieceId, into: z.array(splitPart).min(1), why: textRef.optional() }),
  }),
  'glaze.applied': event({
    rank: 40,
    shape: z.strictObject({
      piece: pieceId,
      zone: word.optional(),
      layers: z.array(layer).min(1),
      wipedBack: z.boolean().optional(),
      /** Said by the potter: it had been fired or dried, and that was not noted. */
      stagesNotNoted: z.boolean().optional(),
    }),
  }),
  'fault.found': event({
    rank: 70,
    shape: z.strictObject({
      piece: pieceId,
      firing: id.optional(),
      kind: word,
      zone: word.optional(),
      count,
      /** Largest extent in mm. */
      size: z.number().positive().max(2_000).optional(),
      severity: z.enum(['slight', 'plain', 'bad']).optional(),
      note: textRef.optional(),
    }),
  }),
  'repair.decided': event({
    rank: 72,
    shape: z.strictObject({
      piece: pieceId,
      count,
      method: word,
      fault: word.optional(),
      note: textRef.optional(),
    }),
  }),
  'repair.done': event({
    rank: 74,
    shape: z.strictObject({
      piece: pieceId,
      count,
      method: word,
      fault: word.optional(),
      note: textRef.optional(),
    }),
  }),
  /** Nothing is mended, or nothing more: it stays as it was graded. */
  'repair.declined': event({ rank: 82, shape: z.strictObject({ piece: pieceId, count }) }),
  /** Its owner was asked or told how it came out. */
  'piece.owner-told': event({ rank: 83, shape: z.strictObject({ piece: pieceId, count }) }),
  'piece.graded': event({
    rank: 80,
    shape: z.strictObject({
      piece: pieceId,
      firing: id.optional(),
      first: z.number().int().min(0),
      second: z.number().int().min(0),
      waster: z.number().int().min(0),
      price: money.optional(),
    }),
  }),
  'piece.priced': event({
    rank: 85,
    shape: z.strictObject({ piece: pieceId, price: money.optional(), secondPrice: money.optional() }),
  }),
  'piece.left': event({
    rank: 90,
    shape: z.strictObject({
      piece: pieceId,
      count,
      how: z.enum(LEAVINGS),
      to: id.optional(),
      price: money.optional(),
      note: textRef.optional(),
    }),
  }),
  'piece.returned': event({
    /** Early in the day: what is found and done after a return follows it. */
    rank: 8,
    shape: z.strictObject({
      piece: pieceId,
      count,
      from: z.enum(['post', 'gallery', 'owner']),
      note: textRef.optional(),
    }),
  }),
  'piece.noted': event({ rank: 95, shape: z.strictObject({ piece: pieceId, note: textRef }) }),
  'piece.recounted': event({
    rank: 4,
    shape: z.strictObject({ piece: pieceId, count, why: textRef.optional() }),
  }),
  'piece.owner-changed': event({ rank: 7, shape: z.strictObject({ piece: pieceId, owner }) }),
} as const;
