/** From the post office to its end: posted, heard of, arrived, lost, come back, sent again, paid back. */
import { z } from 'zod';
import { command } from '../../../server/contract/plugin.ts';
import { type Recorded, type Refusal, refuse, type Streams } from '../../../server/contract/streams.ts';
import { lotStream } from '../../../server/contract/studio/state.ts';
import { count, lotOf, money, portionIn } from '../../../server/contract/studio/values.ts';
import { freeText } from '../../../server/contract/text.ts';
import { records } from '../events.ts';
import { readItemNumber } from '../post/s10.ts';
import { itemKind } from '../state/item.ts';
import { type Order, orderKind } from '../state/order.ts';
import { type Parcel, parcelKind } from '../state/parcel.ts';
import { lineId, orderKey, parcelId } from '../values.ts';
import { noSuchParcel, parcelStream, potClaims, streamsOf } from './packing.ts';
import { noSuchOrder, orderStream } from './placing.ts';

const ordersOf = (parcel: Parcel): string[] => [...new Set(parcel.contents.map((it) => it.order))];

/** A parcel and its orders. */
const parcelAndOrders = (parcel: Parcel): string[] => [
  parcelStream(parcel.parcel),
  ...ordersOf(parcel).map(orderStream),
];

/** The pots in it, with the orders that they are for and the pieces that they are. */
function pots(parcel: Parcel, streams: Streams) {
  return parcel.contents.flatMap((it) => {
    const { facts } = streams.latest(itemKind, it.item);
    return facts?.kind === 'pot' && facts.piece !== undefined ? [{ ...it, piece: facts.piece }] : [];
  });
}

const itemNumberClaim = (number: string): string => `item-number:${number}`;

const numberOf = (text: string | undefined): { number?: string } | Refusal => {
  if (text === undefined) return {};
  const read = readItemNumber(text);
  return 'wrong' in read ? refuse('bad-item-number', read.wrong, 'number') : { number: read.number };
};

/** A pot leaves the studio with its parcel. */
function leavings(parcel: Parcel, streams: Streams): Recorded[] | Refusal {
  const leaving: Recorded[] = [];
  for (const { order, line, piece } of pots(parcel, streams)) {
    const portion = portionIn(streams.of(lotStream, lotOf(piece)), piece);
    if (!portion || portion.stage === 'left')
      return refuse('has-left', 'A pot in this parcel has left the studio already.', 'parcel');
    const { buyer, lines } = streams.of(orderKind, order);
    const price = lines.find((one) => one.line === line)?.price;
    leaving.push({
      name: 'piece.left',
      streams: [`piece:${lotOf(piece)}`],
      data: { piece, count: 1, how: 'posted', ...(buyer ? { to: buyer } : {}), ...(price ? { price } : {}) },
    });
  }
  return leaving;
}

export const postParcel = command({
  title: 'Note that a parcel was posted',
  input: z.strictObject({
    parcel: parcelId,
    service: z.string().trim().min(1).max(80).optional(),
    /** As on the receipt or label, typed or scanned. */
    number: z.string().trim().min(1).max(60).optional(),
    /** What it cost to post. */
    cost: money.optional(),
  }),
  streams: (input, loaded) => {
    const parcel = loaded.of(parcelKind, input.parcel);
    return [
      ...streamsOf(input.parcel, parcel.contents),
      ...pots(parcel, loaded).map(({ piece }) => `piece:${lotOf(piece)}`),
    ];
  },
  decide: ({ number: typed, ...input }, streams) => {
    const parcel = streams.of(parcelKind, input.parcel);
    if (parcel.state === 'none') return noSuchParcel();
    const read = numberOf(typed);
    if ('refused' in read) return read;
    const left = leavings(parcel, streams);
    if (!Array.isArray(left)) return left as Refusal;
    const claims = read.number === undefined ? {} : { claims: [itemNumberClaim(read.number)] };
    return [records('parcel.posted', parcelAndOrders(parcel), { ...input, ...read }, claims), ...left];
  },
});

const parcelCommand = <Input extends { parcel: string }>(
  title: string,
  input: z.ZodType<Input>,
  decide: (input: Input, parcel: Parcel, streams: Streams) => readonly Recorded[] | Refusal,
  texts: readonly string[] = [],
) =>
  command<Input>({
    title,
    input,
    texts,
    streams: ({ parcel }, loaded) => streamsOf(parcel, loaded.of(parcelKind, parcel).contents),
    decide: (given, streams) => {
      const parcel = streams.of(parcelKind, given.parcel);
      return parcel.state === 'none' ? noSuchParcel() : decide(given, parcel, streams);
    },
  });

/** At its end a number is free for the post to give again. */
const freed = (parcel: Parcel) =>
  parcel.number !== undefined && parcel.state === 'posted'
    ? { releases: [itemNumberClaim(parcel.number)] }
    : {};

export const arriveParcel = parcelCommand(
  'Note that a parcel arrived',
  z.strictObject({ parcel: parcelId, told: z.enum(['buyer', 'tracking', 'file']).default('buyer') }),
  (input, parcel) =>
    parcel.state === 'arrived'
      ? []
      : [records('parcel.arrived', parcelAndOrders(parcel), input, freed(parcel))],
);

export const assumeArrived = parcelCommand(
  'Take a parcel to have arrived',
  z.strictObject({ parcel: parcelId, after: z.number().int().min(1) }),
  (input, parcel) =>
    parcel.state === 'posted'
      ? [records('parcel.assumed-arrived', parcelAndOrders(parcel), input, freed(parcel))]
      : [],
);

export const loseParcel = parcelCommand(
  'Note that a parcel was lost',
  z.strictObject({ parcel: parcelId, why: freeText().optional() }),
  (input, parcel) =>
    parcel.state === 'lost' ? [] : [records('parcel.lost', parcelAndOrders(parcel), input, freed(parcel))],
  ['why'],
);

export const giveTime = parcelCommand(
  'Leave a late parcel to come until a day',
  z.strictObject({ parcel: parcelId, until: z.iso.date() }),
  (input, parcel) =>
    parcel.givenUntil === input.until ? [] : [records('parcel.given-time', parcelAndOrders(parcel), input)],
);

export const trackParcel = parcelCommand(
  'Note what the post says of a parcel',
  z.strictObject({ parcel: parcelId, said: z.string().trim().min(1).max(200) }),
  (input, parcel) =>
    parcel.tracked.at(-1)?.said === input.said
      ? []
      : [records('parcel.tracked', parcelAndOrders(parcel), input)],
);

export const comeBackParcel = command({
  title: 'Note that a parcel came back',
  input: z.strictObject({
    parcel: parcelId,
    /** Whether what was in it can be sold again. */
    sound: z.boolean(),
    why: freeText().optional(),
  }),
  texts: ['why'],
  streams: (input, loaded) => {
    const parcel = loaded.of(parcelKind, input.parcel);
    const pieces = pots(parcel, loaded).map(({ piece }) => `piece:${lotOf(piece)}`);
    return [...streamsOf(input.parcel, parcel.contents), ...pieces];
  },
  decide: (input, streams) => {
    const parcel = streams.of(parcelKind, input.parcel);
    if (parcel.state === 'none') return noSuchParcel();
    if (parcel.state === 'came-back') return [];
    const releases = [...potClaims(parcel.contents, streams), ...(freed(parcel).releases ?? [])];
    const data = { ...input, contents: [...parcel.contents] };
    return [
      records(
        'parcel.came-back',
        streamsOf(input.parcel, parcel.contents),
        data,
        releases.length > 0 ? { releases } : {},
      ),
      ...pots(parcel, streams).map(({ piece }) => ({
        name: 'piece.returned',
        streams: [`piece:${lotOf(piece)}`],
        data: { piece, count: 1, from: 'post' as const },
      })),
    ];
  },
});

/** What of the parcel's contents belongs to an order, all of it unless lines are named. */
function lostLines(order: Order, parcel: string, lines: Asked | undefined) {
  const sent = order.parcels.find((one) => one.parcel === parcel);
  return lines ?? sent?.contents.map(({ line, quantity }) => ({ line, quantity })) ?? [];
}
type Asked = readonly { line: string; quantity: number }[];

export const replaceOrder = command({
  title: 'Send again',
  input: z.strictObject({
    order: orderKey,
    parcel: parcelId,
    lines: z
      .array(z.strictObject({ line: lineId, quantity: count }))
      .min(1)
      .optional(),
    why: freeText().optional(),
  }),
  texts: ['why'],
  streams: (input) => [orderStream(input.order)],
  decide: (input, streams) => {
    const order = streams.of(orderKind, input.order);
    if (!order.placed) return noSuchOrder();
    const sent = order.parcels.find((one) => one.parcel === input.parcel);
    if (!sent?.postedAt)
      return refuse('not-posted', 'That parcel has not been posted for this order.', 'parcel');
    const lines = lostLines(order, input.parcel, input.lines);
    const over = lines.find(
      (it) => it.quantity > (sent.contents.find((one) => one.line === it.line)?.quantity ?? 0),
    );
    if (over) return refuse('too-many', 'There was not so much of that line in the parcel.', 'lines');
    return [records('order.replaced', [orderStream(input.order)], { ...input, lines: [...lines] })];
  },
});

export const refundOrder = command({
  title: 'Pay money back',
  input: z.strictObject({ order: orderKey, amount: money, why: freeText().optional() }),
  texts: ['why'],
  streams: (input) => [orderStream(input.order)],
  decide: (input, streams) => {
    const order = streams.of(orderKind, input.order);
    if (!order.placed) return noSuchOrder();
    const { currency } = input.amount;
    const paid = order.lines.reduce(
      (sum, { price, quantity }) => sum + (price?.currency === currency ? price.amount * quantity : 0),
      order.postage?.currency === currency ? order.postage.amount : 0,
    );
    const before = order.refunds.reduce((sum, it) => sum + (it.currency === currency ? it.amount : 0), 0);
    if (paid > 0 && before + input.amount.amount > paid)
      return refuse(
        'too-much',
        'That is more than was paid for this order, with what was paid back before.',
        'amount',
      );
    return [records('order.refunded', [orderStream(input.order)], input)];
  },
});
