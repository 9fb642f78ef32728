/** What is kept with an order: notes, messages, a picture that the buyer sent. */
import { z } from 'zod';
import { PICTURE_TYPES } from '../../../server/contract/picture/picture.ts';
import { command } from '../../../server/contract/plugin.ts';
import { refuse } from '../../../server/contract/streams.ts';
import { sha256 } from '../../../server/contract/studio/material-events.ts';
import { id, pieceId } from '../../../server/contract/studio/values.ts';
import { freeText } from '../../../server/contract/text.ts';
import { records } from '../events.ts';
import { itemKind } from '../state/item.ts';
import { orderKind } from '../state/order.ts';
import { orderKey } from '../values.ts';
import { noSuchOrder, orderStream } from './placing.ts';

/** Texts that speak of an order are found, and erased, by its stream. */
const noting = { order: orderKey, note: freeText() };

export const noteOrder = command({
  title: 'Note something on an order',
  input: z.strictObject(noting),
  texts: ['note'],
  streams: (input) => [orderStream(input.order)],
  decide: (input, streams) =>
    streams.of(orderKind, input.order).placed
      ? [records('order.noted', [orderStream(input.order)], input)]
      : noSuchOrder(),
});

export const tellBuyer = command({
  title: 'Note that the buyer was written to',
  input: z.strictObject({
    order: orderKey,
    message: z.enum(['received', 'posted', 'has-it-come', 'download']),
    parcel: id.optional(),
  }),
  streams: (input) => [orderStream(input.order)],
  decide: (input, streams) =>
    streams.of(orderKind, input.order).placed
      ? [records('order.told', [orderStream(input.order)], input)]
      : noSuchOrder(),
});

export const keepPicture = command({
  title: 'Keep a picture that a buyer sent',
  input: z.strictObject({
    order: orderKey,
    /** The picture is kept already, by the SHA-256 of what is in it. */
    sha256,
    type: z.enum(PICTURE_TYPES),
    bytes: z.number().int().min(1),
    width: z.number().int().min(1).optional(),
    height: z.number().int().min(1).optional(),
    /** The pot that it shows: one of those in the order. */
    piece: pieceId.optional(),
    /** What the buyer allows: to keep it, to show it, to name them with it. */
    allows: z.array(z.enum(['keep', 'show', 'name'])).min(1),
    note: freeText().optional(),
  }),
  texts: ['note'],
  files: (input) => [input.sha256],
  streams: (input, loaded) => [
    orderStream(input.order),
    ...(input.piece ? loaded.of(orderKind, input.order).lines.map(({ item }) => `item:${item}`) : []),
  ],
  decide: (input, streams) => {
    const order = streams.of(orderKind, input.order);
    if (!order.placed) return noSuchOrder();
    if (!input.allows.includes('keep'))
      return refuse('not-allowed', 'A picture that the buyer does not let you keep is not kept.', 'allows');
    if (
      input.piece &&
      !order.lines.some(({ item }) => streams.of(itemKind, item).facts?.piece === input.piece)
    )
      return refuse('not-in-order', 'This piece is not in the order.', 'piece');
    const allows = [...new Set(input.allows)].sort();
    const known = order.pictures.find((it) => it.sha256 === input.sha256);
    const same = known && known.allows.join() === allows.join() && known.piece === input.piece;
    if (same && !input.note) return [];
    return [
      records('order.picture-came', [orderStream(input.order)], { ...input, allows, buyer: order.buyer! }),
    ];
  },
});
