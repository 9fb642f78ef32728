/** Packing: a parcel from what is open of one buyer's orders, and taking it apart again. */
import { z } from 'zod';
import { command } from '../../../server/contract/plugin.ts';
import { type Refusal, refuse, type Streams } from '../../../server/contract/streams.ts';
import { lotStream } from '../../../server/contract/studio/state.ts';
import { count, handle, lotOf, portionIn } from '../../../server/contract/studio/values.ts';
import { records, type ShopData } from '../events.ts';
import { formatOf } from '../post/formats.ts';
import { type Packed, sizeOf, tooLargeFor, weightOf } from '../post/parcel-size.ts';
import { inParcel, itemKind, shortOf } from '../state/item.ts';
import { type Order, openLines, orderKind } from '../state/order.ts';
import { parcelKind } from '../state/parcel.ts';
import { SETTINGS, SETTINGS_STREAM, shopKind } from '../state/shop.ts';
import { type Content, grams, lineId, measures, orderKey, parcelId } from '../values.ts';
import { itemStream } from './items.ts';
import { noSuchOrder, orderStream } from './placing.ts';

export const parcelStream = (parcel: string): string => `parcel:${parcel}`;

const packInput = z.strictObject({
  parcel: parcelId,
  /** Of one buyer. All that is open of them goes in, unless `lines` says what. */
  orders: z.array(orderKey).min(1).max(50),
  lines: z
    .array(z.strictObject({ order: orderKey, line: lineId, quantity: count }))
    .min(1)
    .optional(),
  packaging: handle.optional(),
  /** As it was weighed and measured; reckoned from what is in it when left out. */
  weight: grams.optional(),
  size: measures.optional(),
  /** It goes although the books say that there are not enough. */
  anyway: z.boolean().optional(),
});
type PackInput = z.infer<typeof packInput>;

const itemsIn = (orders: readonly Order[]): string[] => [
  ...new Set(orders.flatMap((order) => order.lines.map((line) => line.item))),
];

/** The pieces of the studio that the pots among the items are. */
const pieceStreams = (items: readonly string[], streams: Streams): string[] =>
  items.flatMap((item) => {
    const piece = streams.latest(itemKind, item).facts?.piece;
    return piece === undefined ? [] : [`piece:${lotOf(piece)}`];
  });

function chosen({ lines }: PackInput, orders: readonly Order[]): Content[] {
  const open = orders.flatMap((order) =>
    openLines(order).map(({ line, item, open: quantity }) => ({ order: order.order, line, item, quantity })),
  );
  if (!lines) return open;
  return lines.map(({ order, line, quantity }) => {
    const item = orders.find((one) => one.order === order)?.lines.find((one) => one.line === line)?.item;
    return { order, line, item: item ?? '', quantity };
  });
}

function unfit(orders: readonly Order[], contents: readonly Content[]): Refusal | undefined {
  const missing = orders.find((order) => !order.placed);
  if (missing) return noSuchOrder('orders');
  const [first, ...others] = orders;
  const other = others.find((order) => order.buyer !== first!.buyer || order.country !== first!.country);
  if (other)
    return refuse(
      'not-one-buyer',
      `Orders ${first!.number} and ${other.number} go to different buyers or countries; pack them apart.`,
      'orders',
    );
  if (contents.length === 0)
    return refuse(
      'nothing-to-pack',
      'Nothing of it is left to pack: all is packed, cancelled or a file.',
      'orders',
    );
  const strange = contents.findIndex((it) => it.item === '');
  if (strange >= 0)
    return refuse('no-such-line', 'There is no such line in these orders.', `lines.${strange}`);
  return undefined;
}

/** Against what there is now as well: somebody else may have packed the last one in the meantime. */
function short(input: PackInput, contents: readonly Content[], streams: Streams): Refusal | undefined {
  for (const item of new Set(contents.map((it) => it.item))) {
    const { facts } = streams.latest(itemKind, item);
    if (!facts) return refuse('no-such-item', `There is no item ${item} at that time; add it first.`);
    if (facts.kind === 'pot') {
      if (inParcel(contents, item) > 1)
        return refuse('one-piece', `${facts.name} is one piece and cannot go twice.`, 'orders');
      const gone = potGone(item, facts.piece, streams);
      if (gone) return refuse('sold-already', `${facts.name}: ${gone}`, 'orders');
      continue;
    }
    if (input.anyway) continue;
    const now = streams.latest(itemKind, item);
    const why = shortOf(now, Math.min(streams.of(itemKind, item).stock, now.stock), inParcel(contents, item));
    if (why) return refuse('not-in-stock', why, 'anyway');
  }
  return undefined;
}

function potGone(item: string, piece: string | undefined, streams: Streams): string | undefined {
  if (streams.latest(itemKind, item).gone > 0) return 'it is one piece, and it is in another parcel already.';
  if (piece === undefined) return undefined;
  const portion = portionIn(streams.latest(lotStream, lotOf(piece)), piece);
  return portion === undefined || portion.stage === 'left'
    ? 'the piece has left the studio already.'
    : undefined;
}

const oneOff = (item: string, piece: string | undefined): string => `one-off:${piece ?? item}`;

export const potClaims = (contents: readonly Content[], streams: Streams): string[] =>
  contents.flatMap(({ item }) => {
    const { facts } = streams.latest(itemKind, item);
    return facts?.kind === 'pot' ? [oneOff(item, facts.piece)] : [];
  });

function measured(input: PackInput, contents: readonly Content[], streams: Streams) {
  const { packagings } = streams.of(shopKind, SETTINGS).facts;
  const packaging = packagings.find((one) => one.id === input.packaging);
  if (input.packaging !== undefined && !packaging)
    return refuse(
      'no-such-packaging',
      `There is no packaging ${input.packaging}; add it to the shop’s settings first.`,
      'packaging',
    );
  const packed: Packed[] = contents.map(({ item, quantity }) => ({
    facts: streams.latest(itemKind, item).facts!,
    quantity,
  }));
  const large = packaging && tooLargeFor(packed, packaging);
  if (large) return refuse('does-not-fit', `${large} Choose a larger one.`, 'packaging');
  const weight = input.weight ?? weightOf(packed, packaging);
  const size = input.size ?? sizeOf(packed, packaging);
  const format = weight !== undefined && size ? formatOf(weight, size).format : undefined;
  return {
    ...(weight === undefined ? {} : { weight }),
    ...(size ? { size } : {}),
    ...(format ? { format } : {}),
    ...(input.packaging === undefined ? {} : { packaging: input.packaging }),
  };
}

const earliest = (days: readonly string[]): string => [...days].sort()[0]!;

export const packParcel = command({
  title: 'Pack a parcel',
  input: packInput,
  streams: (input, loaded) => {
    const orders = input.orders.map((order) => loaded.of(orderKind, order));
    const items = itemsIn(orders);
    return [
      ...input.orders.map(orderStream),
      parcelStream(input.parcel),
      SETTINGS_STREAM,
      ...items.map(itemStream),
      ...pieceStreams(items, loaded),
    ];
  },
  decide: (input, streams) => {
    const orders = input.orders.map((order) => streams.of(orderKind, order));
    const contents = chosen(input, orders);
    const wrong = unfit(orders, contents) ?? short(input, contents, streams);
    if (wrong) return wrong;
    const sizes = measured(input, contents, streams);
    if ('refused' in sizes) return sizes;
    const data: ShopData<'parcel.packed'> = {
      parcel: input.parcel,
      contents,
      country: orders[0]!.country,
      placed: earliest(orders.map((order) => order.placed!)),
      promise: earliest(orders.map((order) => order.promise)),
      ...sizes,
      ...(input.anyway ? { anyway: true } : {}),
    };
    const claims = potClaims(contents, streams);
    return [
      records('parcel.packed', streamsOf(input.parcel, contents), data, claims.length > 0 ? { claims } : {}),
    ];
  },
});

/** A parcel, its orders and its items. */
export const streamsOf = (parcel: string, contents: readonly Content[]): string[] => [
  parcelStream(parcel),
  ...contents.map((it) => orderStream(it.order)),
  ...contents.map((it) => itemStream(it.item)),
];

export const noSuchParcel = (): Refusal =>
  refuse(
    'no-such-parcel',
    'There is no such parcel at that time; pack it first, or give a later date.',
    'parcel',
  );

export const unpackParcel = command({
  title: 'Take a parcel apart again',
  input: z.strictObject({ parcel: parcelId }),
  streams: ({ parcel }, loaded) => streamsOf(parcel, loaded.of(parcelKind, parcel).contents),
  decide: ({ parcel }, streams) => {
    const { state, contents } = streams.of(parcelKind, parcel);
    if (state === 'none') return noSuchParcel();
    if (state === 'unpacked') return [];
    if (state !== 'packed')
      return refuse('posted-already', 'It has been posted; note that it came back instead.', 'parcel');
    const releases = potClaims(contents, streams);
    return [
      records(
        'parcel.unpacked',
        streamsOf(parcel, contents),
        { parcel, contents: [...contents] },
        releases.length > 0 ? { releases } : {},
      ),
    ];
  },
});
