/** Faults found, and what is done about them. */
import { z } from 'zod';
import { command } from '../../contract/plugin.ts';
import { count, id, pieceId, word } from '../../contract/studio/values.ts';
import { freeText } from '../../contract/text.ts';
import { SETTINGS_STREAM, unknownWord } from '../materials/known.ts';
import { foundBeside, mendedBeside } from './beside.ts';
import { pieceStream } from './lot.ts';
import { isRefused, noSuchPiece, portionOf, records, take } from './part.ts';

export const findFault = command({
  title: 'Log a fault',
  input: z.strictObject({
    piece: pieceId,
    kind: word,
    zone: word.optional(),
    /** How many of the lot have it; all when left out. */
    count: count.optional(),
    /** Largest extent in mm. */
    size: z.number().positive().max(2_000).optional(),
    severity: z.enum(['slight', 'plain', 'bad']).optional(),
    firing: id.optional(),
    note: freeText().optional(),
  }),
  texts: ['note'],
  streams: (input) => [pieceStream(input.piece), SETTINGS_STREAM],
  beside: foundBeside,
  decide: (input, streams) => {
    const unknown =
      unknownWord(streams, 'fault', input.kind, 'kind') ?? unknownWord(streams, 'zone', input.zone, 'zone');
    if (unknown) return unknown;
    const portion = portionOf(streams, input.piece);
    if (!portion) return noSuchPiece();
    return [
      records('fault.found', [pieceStream(input.piece)], { ...input, count: input.count ?? portion.count }),
    ];
  },
});

const repair = (name: 'repair.decided' | 'repair.done', title: string) =>
  command({
    title,
    input: z.strictObject({
      piece: pieceId,
      count: count.optional(),
      method: word,
      /** Which fault it is for. */
      fault: word.optional(),
      note: freeText().optional(),
    }),
    texts: ['note'],
    streams: (input) => [pieceStream(input.piece), SETTINGS_STREAM],
    beside: mendedBeside(name),
    decide: (input, streams, at) => {
      const unknown =
        unknownWord(streams, 'repair', input.method, 'method') ??
        unknownWord(streams, 'fault', input.fault, 'fault');
      if (unknown) return unknown;
      const taken = take(streams, at, input.piece, input.count);
      if (isRefused(taken)) return taken;
      const { piece, count: all } = taken;
      return [...taken.split, records(name, [pieceStream(piece)], { ...input, piece, count: all })];
    },
  });

const some = z.strictObject({ piece: pieceId, count: count.optional() });

/** Says something of a piece, or of some of a lot, that has no more to it. */
const plain = (name: 'repair.declined' | 'piece.owner-told', title: string) =>
  command({
    title,
    input: some,
    streams: (input) => [pieceStream(input.piece)],
    decide: (input, streams, at) => {
      const taken = take(streams, at, input.piece, input.count);
      if (isRefused(taken)) return taken;
      const { piece, count: all } = taken;
      return [...taken.split, records(name, [pieceStream(piece)], { piece, count: all })];
    },
  });

export const declineRepair = plain('repair.declined', 'Leave it as it is');
export const tellOwner = plain('piece.owner-told', 'Note that its owner was told');
export const decideRepair = repair('repair.decided', 'Decide a repair');
export const doRepair = repair('repair.done', 'Note a repair as done');
