/** Beginning a piece or a lot, and moving it on while it dries. */
import { z } from 'zod';
import { markFor } from '../../contract/mark.ts';
import { command } from '../../contract/plugin.ts';
import { refuse } from '../../contract/streams.ts';
import { count, handle, id, mark, money, name, owner, pieceId, size } from '../../contract/studio/values.ts';
import { freeText } from '../../contract/text.ts';
import { isReserved, markClaim, marksStream } from '../marks/marks.ts';
import { ownerStreams, unknownMaterial, unknownOwner } from '../materials/known.ts';
import { oneValue } from './beside.ts';
import { pieceStream } from './lot.ts';
import { isRefused, noSuchPiece, partId, portionOf, records, take } from './part.ts';

export const begin = command({
  title: 'Begin a piece or a lot',
  input: z.strictObject({
    piece: pieceId,
    count: count.default(1),
    /** Left out, the studio gives the next free foot mark. */
    mark: mark.optional(),
    /** The reserved run that the mark is from. */
    run: id.optional(),
    form: name.optional(),
    clay: handle.optional(),
    owner: owner.default({ kind: 'own' }),
    maker: id.optional(),
    how: z.enum(['thrown', 'slab-built', 'coiled', 'pressed', 'cast']).optional(),
    size: size.optional(),
    price: money.optional(),
    secondPrice: money.optional(),
  }),
  streams: (input) => [
    pieceStream(input.piece),
    ...(input.clay ? [`clay:${input.clay}`] : []),
    ...ownerStreams(input.owner),
    ...(input.run ? [marksStream(input.run)] : []),
  ],
  decide: ({ run, ...input }, streams, at) => {
    if (input.piece.includes('.'))
      return refuse('bad-piece-id', 'A new piece needs an id of its own, without a dot.', 'piece');
    const why = unknownMaterial(streams, 'clay', input.clay, 'clay') ?? unknownOwner(streams, input.owner);
    if (why) return why;
    const given = input.mark ?? markFor(at.command, at.attempt);
    const touched = [pieceStream(input.piece)];
    const claims = [markClaim(given)];
    // What was reserved is held by the reservation, which gives it up to the piece.
    if (run !== undefined && isReserved(streams, run, given))
      return [
        records('piece.begun', [...touched, marksStream(run)], { ...input, mark: given }, claims, claims),
      ];
    return [records('piece.begun', touched, { ...input, mark: given }, claims)];
  },
});

export const moveOn = command({
  title: 'Move on to leather-hard or bone-dry',
  input: z.strictObject({
    piece: pieceId,
    stage: z.enum(['leather-hard', 'bone-dry']),
    count: count.optional(),
  }),
  streams: (input) => [pieceStream(input.piece)],
  decide: (input, streams, at) => {
    const taken = take(streams, at, input.piece, input.count);
    if (isRefused(taken)) return taken;
    if (taken.portion.stage === input.stage) return [];
    const { piece, count } = taken;
    return [
      ...taken.split,
      records('piece.moved-on', [pieceStream(piece)], { piece, stage: input.stage, count }),
    ];
  },
});

export const split = command({
  title: 'Split a lot',
  input: z.strictObject({
    piece: pieceId,
    /** How many go into each new part; marks are optional. */
    into: z
      .array(z.strictObject({ count, mark: mark.optional() }))
      .min(1)
      .max(200),
    why: freeText().optional(),
  }),
  texts: ['why'],
  streams: (input) => [pieceStream(input.piece)],
  decide: (input, streams, at) => {
    if (!portionOf(streams, input.piece)) return noSuchPiece();
    const parts = input.into.map((part, n) => ({ ...part, piece: partId(input.piece, at, n) }));
    const claims = input.into.flatMap((part) => (part.mark ? [markClaim(part.mark)] : []));
    return [
      records(
        'lot.split',
        [pieceStream(input.piece)],
        { piece: input.piece, into: parts, ...(input.why ? { why: input.why } : {}) },
        claims,
      ),
    ];
  },
});

export const recount = command({
  title: 'Correct the count',
  input: z.strictObject({ piece: pieceId, count, why: freeText().optional() }),
  texts: ['why'],
  streams: (input) => [pieceStream(input.piece)],
  beside: oneValue('piece.recounted', ({ count }) => count),
  decide: (input, streams) => {
    const portion = portionOf(streams, input.piece);
    if (!portion) return noSuchPiece();
    if (portion.count === input.count) return [];
    return [records('piece.recounted', [pieceStream(input.piece)], input)];
  },
});

export const changeOwner = command({
  title: 'Change whose it is',
  input: z.strictObject({ piece: pieceId, owner }),
  streams: (input) => [pieceStream(input.piece), ...ownerStreams(input.owner)],
  beside: oneValue('piece.owner-changed', ({ owner }) => owner),
  decide: (input, streams) => {
    const unknown = unknownOwner(streams, input.owner);
    if (unknown) return unknown;
    return portionOf(streams, input.piece)
      ? [records('piece.owner-changed', [pieceStream(input.piece)], input)]
      : noSuchPiece();
  },
});

export const note = command({
  title: 'Note something',
  input: z.strictObject({ piece: pieceId, note: freeText(5_000) }),
  texts: ['note'],
  streams: (input) => [pieceStream(input.piece)],
  decide: (input, streams) =>
    portionOf(streams, input.piece)
      ? [records('piece.noted', [pieceStream(input.piece)], input)]
      : noSuchPiece(),
});
