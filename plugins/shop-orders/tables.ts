/** The shop's tables: what waits, what is on its way, and sums by month and day. */
import { integer, text } from 'drizzle-orm/sqlite-core';
import { cells, facts } from '../../server/contract/tables.ts';

export const orders = facts(
  'orders',
  {
    order: text('order_key').notNull(),
    number: text('number').notNull(),
    source: text('source').notNull(),
    buyer: text('buyer').notNull(),
    country: text('country').notNull(),
    placed: text('placed').notNull(),
    promise: text('promise').notNull(),
    /** 'open', 'packed', 'posted', 'done', 'cancelled'. */
    state: text('state').notNull(),
    posted: text('posted'),
    /** In minor units of the order's currency; null where lines have several, or none. */
    value: integer('value'),
    currency: text('currency'),
    /** Something came that the user has to look at. */
    came: integer('came').notNull(),
    changedSeq: integer('changed_seq').notNull(),
  },
  [['order'], ['buyer'], ['state', 'promise'], ['changedSeq'], ['number']],
);

/** Lines of which something is still to be packed, or handed out for the first time. */
export const openLines = facts(
  'open_lines',
  {
    order: text('order_key').notNull(),
    number: text('number').notNull(),
    line: text('line').notNull(),
    item: text('item').notNull(),
    quantity: integer('quantity').notNull(),
    placed: text('placed').notNull(),
    promise: text('promise').notNull(),
    country: text('country').notNull(),
    buyer: text('buyer').notNull(),
    addressed: integer('addressed').notNull(),
    came: integer('came').notNull(),
    again: integer('again').notNull(),
    download: integer('download').notNull(),
  },
  [['promise', 'placed', 'order'], ['item'], ['buyer']],
);

const orderSums = ['orders', 'posted', 'on_time', 'cancelled'] as const;
/** `days` from placing to posting, -1 where it is not posted; `due`: the promised day of those that are not. */
const orderKeys = {
  country: text('country').notNull(),
  days: integer('days').notNull(),
  due: text('due').notNull(),
};
export const ordersByMonth = cells(
  'orders_by_month',
  { month: text('month').notNull(), ...orderKeys },
  orderSums,
);
export const ordersByDay = cells('orders_by_day', { day: text('day').notNull(), ...orderKeys }, orderSums);

/** Orders that wait to be posted, by the day they were placed. */
export const waitingOrders = cells(
  'waiting_orders',
  {
    country: text('country').notNull(),
    placed: text('placed').notNull(),
    promise: text('promise').notNull(),
  },
  ['orders'],
);

const salesSums = ['quantity', 'amount', 'lines'] as const;
const salesKeys = {
  item: text('item').notNull(),
  country: text('country').notNull(),
  /** Empty where no price is known. */
  currency: text('currency').notNull(),
};
/** What was ordered and not cancelled. */
export const salesByDay = cells('sales_by_day', { day: text('day').notNull(), ...salesKeys }, salesSums);

/** Money besides the lines: postage that buyers paid, and what was paid back. */
export const moneyByDay = cells(
  'money_by_day',
  {
    day: text('day').notNull(),
    country: text('country').notNull(),
    kind: text('kind').notNull(),
    currency: text('currency').notNull(),
  },
  ['amount', 'orders'],
);

export const parcels = facts(
  'parcels',
  {
    parcel: text('parcel').notNull(),
    /** Keys of its orders, joined by a space. */
    orders: text('orders').notNull(),
    country: text('country').notNull(),
    state: text('state').notNull(),
    placed: text('placed').notNull(),
    promise: text('promise').notNull(),
    packed: text('packed').notNull(),
    posted: text('posted'),
    ended: text('ended'),
    /** Left to come until this day. */
    given: text('given'),
    service: text('service'),
    number: text('number'),
    weight: integer('weight'),
    format: text('format'),
    packaging: text('packaging'),
    cost: integer('cost'),
    currency: text('currency'),
    changedSeq: integer('changed_seq').notNull(),
  },
  [['parcel'], ['state', 'posted'], ['changedSeq'], ['number'], ['given']],
);

/** Parcels by when the first of their orders was placed, days in the post, and how it ended. */
const transitKeys = {
  country: text('country').notNull(),
  days: integer('days').notNull(),
  /** 'arrived', 'assumed', 'lost', 'came-back'. */
  outcome: text('outcome').notNull(),
};
export const transitByMonth = cells('transit_by_month', { month: text('month').notNull(), ...transitKeys }, [
  'parcels',
]);
export const transitByDay = cells('transit_by_day', { day: text('day').notNull(), ...transitKeys }, [
  'parcels',
]);
/** Parcels on their way, by the day they were posted. */
export const onTheWay = cells(
  'on_the_way',
  { country: text('country').notNull(), placed: text('placed').notNull(), posted: text('posted').notNull() },
  ['parcels'],
);
/** What was paid for postage, by the day of posting. */
export const postagePaid = cells(
  'postage_paid',
  {
    day: text('day').notNull(),
    country: text('country').notNull(),
    currency: text('currency').notNull(),
  },
  ['amount', 'parcels'],
);

export const items = facts(
  'items',
  {
    item: text('item').notNull(),
    name: text('name').notNull(),
    kind: text('kind').notNull(),
    stock: integer('stock').notNull(),
    counted: integer('counted').notNull(),
    made: integer('made').notNull(),
    gone: integer('gone').notNull(),
    broken: integer('broken').notNull(),
    found: integer('found').notNull(),
    facts: text('facts').notNull(),
  },
  [['item']],
);

export const tariffs = facts('tariffs', {
  tariff: text('tariff').notNull(),
  versions: text('versions').notNull(),
});
export const shop = facts('shop', { facts: text('facts').notNull() });
export const downloads = facts(
  'downloads',
  {
    download: text('download').notNull(),
    order: text('order_key').notNull(),
    line: text('line').notNull(),
    item: text('item').notNull(),
    until: text('until').notNull(),
    most: integer('most').notNull(),
    times: integer('times').notNull(),
    last: text('last'),
  },
  [['download'], ['order']],
);
/** Pictures that buyers sent, with what they allow. */
export const pictures = facts('pictures', {
  order: text('order_key').notNull(),
  buyer: text('buyer').notNull(),
  sha256: text('sha256').notNull(),
  width: integer('width'),
  height: integer('height'),
  piece: text('piece'),
  /** Whether it may be shown, and the buyer named with it. */
  show: integer('show').notNull(),
  name: integer('name').notNull(),
  seq: integer('seq').notNull(),
  day: text('day').notNull(),
});

/** When a buyer was asked whether it has come. */
export const asked = facts('asked', { order: text('order_key').notNull(), day: text('day').notNull() });

/** Which orders are in a parcel. */
export const parcelOrders = facts(
  'parcel_orders',
  { parcel: text('parcel').notNull(), order: text('order_key').notNull() },
  [['order'], ['parcel']],
);
