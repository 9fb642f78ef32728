/** What is kept with an order: notes, messages, a picture that the buyer sent. */
import { z } from 'zod';
import { command } from '../../../server/contract/plugin.ts';
import { refuse } from '../../../server/contract/streams.ts';
import { id } from '../../../server/contract/studio/values.ts';
import { freeText, type TextRef } from '../../../server/contract/text.ts';
import { records } from '../events.ts';
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

/** The picture itself, as a data address: it is erased with its buyer like any text about them. */
const picture = z
  .string()
  .max(700_000, 'a picture of at most about 500 kB; make it smaller first')
  .regex(
    /^data:image\/(jpeg|png|webp);base64,[A-Za-z0-9+/]+=*$/,
    'a JPEG, PNG or WebP picture',
  ) as unknown as z.ZodType<TextRef, string>;

export const keepPicture = command({
  title: 'Keep a picture that a buyer sent',
  input: z.strictObject({
    order: orderKey,
    picture,
    /** What the buyer allows: to keep it, to show it, to name them with it. */
    allows: z.array(z.enum(['keep', 'show', 'name'])).min(1),
    note: freeText().optional(),
  }),
  texts: ['picture', 'note'],
  streams: (input) => [orderStream(input.order)],
  decide: (input, streams) => {
    const order = streams.of(orderKind, input.order);
    if (!order.placed) return noSuchOrder();
    if (!input.allows.includes('keep'))
      return refuse('not-allowed', 'A picture that the buyer does not let you keep is not kept.', 'allows');
    return [records('order.picture-came', [orderStream(input.order)], { ...input, buyer: order.buyer! })];
  },
});
