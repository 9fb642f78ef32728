/** Pricing, leaving and coming back. */
import { z } from 'zod';
import { command } from '../../contract/plugin.ts';
import { refuse } from '../../contract/streams.ts';
import { count, id, money, pieceId } from '../../contract/studio/values.ts';
import { freeText } from '../../contract/text.ts';
import { LEAVINGS } from '../../contract/trade.ts';
import { leftBeside, oneValue } from './beside.ts';
import { pieceStream } from './lot.ts';
import { isRefused, noSuchPiece, portionOf, records, take } from './part.ts';

export const price = command({
  title: 'Price',
  input: z.strictObject({ piece: pieceId, price: money.optional(), secondPrice: money.optional() }),
  streams: (input) => [pieceStream(input.piece)],
  beside: oneValue('piece.priced', ({ price, secondPrice }) => [price, secondPrice]),
  decide: (input, streams) => {
    if (!input.price && !input.secondPrice)
      return refuse('no-price', 'Give a price, or a price as a second.', 'price');
    return portionOf(streams, input.piece)
      ? [records('piece.priced', [pieceStream(input.piece)], input)]
      : noSuchPiece();
  },
});

export const leave = command({
  title: 'Note that it has left',
  input: z.strictObject({
    piece: pieceId,
    count: count.optional(),
    how: z.enum(LEAVINGS),
    /** Person it went to. */
    to: id.optional(),
    /** What each was sold for. */
    price: money.optional(),
    note: freeText().optional(),
  }),
  texts: ['note'],
  streams: (input) => [pieceStream(input.piece)],
  beside: leftBeside,
  decide: (input, streams, at) => {
    const taken = take(streams, at, input.piece, input.count);
    if (isRefused(taken)) return taken;
    const { piece, count: all } = taken;
    return [...taken.split, records('piece.left', [pieceStream(piece)], { ...input, piece, count: all })];
  },
});

export const comeBack = command({
  title: 'Note that it came back',
  input: z.strictObject({
    piece: pieceId,
    count: count.optional(),
    from: z.enum(['post', 'gallery', 'owner']),
    note: freeText().optional(),
  }),
  texts: ['note'],
  streams: (input) => [pieceStream(input.piece)],
  decide: (input, streams, at) => {
    const taken = take(streams, at, input.piece, input.count);
    if (isRefused(taken)) return taken;
    const { piece, count: all } = taken;
    return [...taken.split, records('piece.returned', [pieceStream(piece)], { ...input, piece, count: all })];
  },
});
