/** What the shop records. Names are for good; a shape grows by an upcast. */
import { z } from 'zod';
import { PICTURE_TYPES } from '../../server/contract/picture/picture.ts';
import { event } from '../../server/contract/plugin.ts';
import type { Recorded } from '../../server/contract/streams.ts';
import { sha256 } from '../../server/contract/studio/material-events.ts';
import { count, day, handle, id, money, pieceId } from '../../server/contract/studio/values.ts';
import { textRef } from '../../server/contract/text.ts';
import { tariffFacts } from './post/tariff-facts.ts';
import { shopFacts } from './shop-facts.ts';
import {
  content,
  country,
  FORMATS,
  grams,
  itemFacts,
  line,
  lineId,
  measures,
  orderKey,
  parcelId,
  wants,
  way,
} from './values.ts';

/** Who it goes to: names and addresses stand in the erasable store. */
const buyer = {
  /** Opaque id of the person. */
  buyer: id.optional(),
  name: textRef.optional(),
  email: textRef.optional(),
  /** Lines separated by line breaks, without postcode and country. */
  address: textRef.optional(),
  postcode: textRef.optional(),
  country: country.optional(),
};

const pictureType = z.enum(PICTURE_TYPES);

const orderFacts = {
  ...buyer,
  promise: day.optional(),
  lines: z.array(line).min(1).max(500).optional(),
  /** What the buyer pays for postage. */
  postage: money.optional(),
  wants: wants.optional(),
  note: textRef.optional(),
};

const itemSaid = z.strictObject({ item: handle, facts: itemFacts });
const fileOf = ({ facts: { file } }: z.infer<typeof itemSaid>): string[] => (file ? [file] : []);

const itemEvents = {
  'item.added': event({ rank: 2, shape: itemSaid, files: fileOf }),
  'item.changed': event({ rank: 3, shape: itemSaid, files: fileOf }),
  /** A PDF to hand out; an earlier one stays in the studio's keeping. */
  'item.file-given': event({
    rank: 4,
    shape: z.strictObject({
      item: handle,
      file: z.string().regex(/^[0-9a-f]{64}$/),
      /** As the file was called when it came in. */
      called: z.string().trim().min(1).max(200),
    }),
    files: ({ file }) => [file],
  }),
};

const counting = z.strictObject({ item: handle, count });

const stockEvents = {
  /** Ranks: what was there in the morning, then what was added, then what was packed. */
  'stock.counted': event({
    rank: 5,
    shape: z.strictObject({
      item: handle,
      counted: z.number().int().min(0).max(100_000),
      /** What the books said; absent when it had never been counted. */
      expected: z.number().int().optional(),
      why: textRef.optional(),
    }),
  }),
  'stock.printed': event({ rank: 6, shape: counting }),
  'stock.made': event({ rank: 6, shape: counting }),
  'stock.broken': event({ rank: 40, shape: counting.extend({ why: textRef.optional() }) }),
};

const orderEvents = {
  'order.placed': event({
    rank: 10,
    shape: z.strictObject({
      order: orderKey,
      number: z.string().min(1).max(80),
      source: handle,
      ...orderFacts,
      buyer: id,
      country,
      promise: day,
      lines: z.array(line).min(1).max(500),
      way,
    }),
  }),
  'order.changed': event({ rank: 12, shape: z.strictObject({ order: orderKey, ...orderFacts, way }) }),
  /** The shop says something else than before: kept until somebody looks at it. */
  'order.change-came': event({
    rank: 11,
    shape: z.strictObject({ order: orderKey, ...orderFacts, way, cancelled: z.boolean().optional() }),
  }),
  'order.change-declined': event({ rank: 13, shape: z.strictObject({ order: orderKey }) }),
  'order.cancelled': event({
    rank: 14,
    shape: z.strictObject({ order: orderKey, lines: z.array(lineId).min(1), why: textRef.optional(), way }),
  }),
  'order.refunded': event({
    rank: 60,
    shape: z.strictObject({ order: orderKey, amount: money, why: textRef.optional() }),
  }),
  /** What was lost or came broken is to be sent again. */
  'order.replaced': event({
    rank: 61,
    shape: z.strictObject({
      order: orderKey,
      parcel: parcelId,
      lines: z.array(z.strictObject({ line: lineId, quantity: count })).min(1),
      why: textRef.optional(),
    }),
  }),
  'order.noted': event({ rank: 70, shape: z.strictObject({ order: orderKey, note: textRef }) }),
  /** A message was written to the buyer. */
  'order.told': event({
    rank: 71,
    shape: z.strictObject({
      order: orderKey,
      message: z.enum(['received', 'posted', 'has-it-come', 'download']),
      parcel: parcelId.optional(),
    }),
  }),
  /** A picture that the buyer sent, with what they allow; said again when they allow more or less. */
  'order.picture-came': event({
    rank: 72,
    files: ({ sha256 }) => (sha256 === undefined ? [] : [sha256]),
    shape: z.strictObject({
      order: orderKey,
      buyer: id,
      /** In early records the picture itself, as a text. */
      picture: textRef.optional(),
      sha256: sha256.optional(),
      type: pictureType.optional(),
      bytes: z.number().int().min(1).optional(),
      width: z.number().int().min(1).optional(),
      height: z.number().int().min(1).optional(),
      /** The pot that it shows, where it is one of the studio's. */
      piece: pieceId.optional(),
      allows: z.array(z.enum(['keep', 'show', 'name'])).min(1),
      note: textRef.optional(),
    }),
  }),
};

const parcelEvents = {
  'parcel.packed': event({
    rank: 20,
    shape: z.strictObject({
      parcel: parcelId,
      contents: z.array(content).min(1).max(500),
      country,
      /** When the earliest of its orders was placed, and by when it was promised. */
      placed: day,
      promise: day,
      weight: grams.optional(),
      size: measures.optional(),
      format: z.enum(FORMATS).optional(),
      packaging: handle.optional(),
      /** More was taken than there was by the books, and the user said so. */
      anyway: z.boolean().optional(),
    }),
  }),
  'parcel.unpacked': event({
    rank: 21,
    shape: z.strictObject({ parcel: parcelId, contents: z.array(content).min(1) }),
  }),
  'parcel.posted': event({
    rank: 22,
    shape: z.strictObject({
      parcel: parcelId,
      service: z.string().trim().min(1).max(80).optional(),
      number: z.string().min(4).max(40).optional(),
      cost: money.optional(),
    }),
  }),
  'parcel.tracked': event({
    rank: 24,
    shape: z.strictObject({ parcel: parcelId, said: z.string().trim().min(1).max(200) }),
  }),
  /** It is later than its like, and is left to come until a day before anybody is asked. */
  'parcel.given-time': event({
    rank: 25,
    shape: z.strictObject({ parcel: parcelId, until: z.iso.date() }),
  }),
  'parcel.arrived': event({
    rank: 30,
    shape: z.strictObject({ parcel: parcelId, told: z.enum(['buyer', 'tracking', 'file']) }),
  }),
  'parcel.assumed-arrived': event({
    rank: 31,
    shape: z.strictObject({ parcel: parcelId, after: z.number().int().min(1) }),
  }),
  'parcel.lost': event({
    rank: 32,
    shape: z.strictObject({ parcel: parcelId, why: textRef.optional() }),
  }),
  'parcel.came-back': event({
    rank: 33,
    shape: z.strictObject({
      parcel: parcelId,
      contents: z.array(content).min(1),
      /** Whether what was in it can be sold again. */
      sound: z.boolean(),
      why: textRef.optional(),
    }),
  }),
};

const otherEvents = {
  'tariff.written': event({ rank: 1, shape: tariffFacts }),
  'shop.set': event({ rank: 1, shape: shopFacts }),
  'download.granted': event({
    rank: 50,
    shape: z.strictObject({
      download: id,
      order: orderKey,
      line: lineId,
      item: handle,
      /** Last day on which it can be fetched, and how often. */
      until: day,
      most: z.number().int().min(1).max(100),
    }),
  }),
  'download.handed-out': event({
    rank: 51,
    shape: z.strictObject({
      download: id,
      order: orderKey,
      time: count,
      /** By its link when not said, or attached to a message. */
      how: z.enum(['link', 'message']).optional(),
      /** Sheets it was drawn on, where there is a choice. */
      paper: z.string().min(1).max(40).optional(),
    }),
  }),
  'download.withdrawn': event({
    rank: 52,
    shape: z.strictObject({ download: id, order: orderKey, why: textRef.optional() }),
  }),
};

export const shopEvents = {
  ...itemEvents,
  ...stockEvents,
  ...orderEvents,
  ...parcelEvents,
  ...otherEvents,
} as const;

export type ShopEvent = keyof typeof shopEvents;
export type ShopData<Name extends ShopEvent> = z.infer<(typeof shopEvents)[Name]['shape']>;

/** One of the shop's events, with its data checked by the compiler. */
export const records = <Name extends ShopEvent>(
  name: Name,
  streams: readonly string[],
  data: ShopData<Name>,
  more: Pick<Recorded, 'claims' | 'releases'> = {},
): Recorded => ({ name, streams: [...new Set(streams)], data, ...more });
