/** Lists of the shop: items with their stock, orders, parcels that are packed and wait to be posted. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { day, handle } from '../../../server/contract/studio/values.ts';
import { offersFor } from '../post/cheapest.ts';
import { countryName } from '../post/countries.ts';
import { itemKind } from '../state/item.ts';
import { orderKind } from '../state/order.ts';
import { storyLines } from '../story.ts';
import type { Format } from '../values.ts';
import { nothing } from './order.ts';
import { wantsOf } from './parcel.ts';
import { owed, readFacts, readItems, readTariffs } from './shop-settings.ts';

async function listItems(ask: Ask): Promise<Answered> {
  const [items, open] = [await readItems(ask), await owed(ask)];
  const rows = [...items.values()].map(({ item, name, kind, stock, counted, facts }) => ({
    item,
    name,
    kind,
    stock: counted === 1 ? stock : null,
    promised: open.get(item) ?? 0,
    price: facts.price?.amount ?? null,
    currency: facts.price?.currency ?? null,
    weight: facts.weight ?? null,
    /** The paper of another plugin that it comes from. */
    paper: facts.paper ?? null,
    behind: `/post/items/${encodeURIComponent(item)}`,
  }));
  return {
    ...nothing(),
    sentence: rows.length === 1 ? '1 item.' : `${rows.length} items.`,
    rows,
    figures: [
      {
        figure: 'table',
        title: 'Items and stock',
        columns: [
          { field: 'name', label: 'Item', kind: 'text', behind: 'behind' },
          { field: 'stock', label: 'In stock', kind: 'count' },
          { field: 'promised', label: 'Ordered, not packed', kind: 'count' },
          { field: 'price', label: 'Price', kind: 'money', wide: true },
        ],
      },
    ],
  };
}
export const items = report({ title: 'Items and stock', input: z.strictObject({}), run: listItems });

async function oneItem(ask: Ask, input: { item: string }): Promise<Answered> {
  const state = await ask.state(itemKind, input.item);
  const name = state.facts?.name ?? input.item;
  const story = await ask.story(`item:${input.item}`);
  return {
    ...nothing(),
    sentence: state.facts ? `${name}.` : 'There is no such item at that time.',
    more: {
      item: state.facts ? { ...state, stock: state.counted ? state.stock : null } : null,
      story: storyLines(story, (item) => (item === input.item ? name : item)).slice(0, 200),
    },
  };
}
export const item = report({
  title: 'An item’s story',
  unlisted: true,
  input: z.strictObject({ item: handle }),
  run: oneItem,
});

const ORDER_STATES = ['open', 'packed', 'posted', 'done', 'cancelled'] as const;
const ordersInput = z.strictObject({
  from: day.optional(),
  to: day.optional(),
  state: z.enum(ORDER_STATES).optional(),
  /** Part of a number, or words of a name, address or note. */
  search: z.string().trim().max(100).optional(),
  /** Place of the first row. */
  after: z.coerce.number().int().min(0).max(1e7).default(0),
});
const PAGE = 50;

interface OrderRow {
  key: string;
  order: string;
  buyer: string;
  country: string;
  placed: string;
  promise: string;
  state: string;
  posted: string | null;
}

async function found(ask: Ask, search: string | undefined): Promise<string[] | undefined> {
  if (!search) return undefined;
  const streams = await ask.textSearch(search);
  return streams.filter((one) => one.startsWith('order:')).map((one) => one.slice('order:'.length));
}

async function listOrders(ask: Ask, input: z.infer<typeof ordersInput>): Promise<Answered> {
  const said = await found(ask, input.search);
  const where = [
    ...(input.from ? ['placed >= ?1'] : []),
    ...(input.to ? ['placed <= ?2'] : []),
    ...(input.state ? ['state = ?3'] : []),
    ...(said ? ['(order_key IN (SELECT value FROM json_each(?4)) OR instr(number, ?5) > 0)'] : []),
  ];
  const rows = await ask.query<OrderRow>(
    `SELECT order_key AS key, number AS "order", buyer, country, placed, promise, state, posted FROM orders
     ${where.length > 0 ? `WHERE ${where.join(' AND ')}` : ''}
     ORDER BY placed DESC, order_key DESC LIMIT ${PAGE + 1} OFFSET ?6`,
    [
      input.from ?? null,
      input.to ?? null,
      input.state ?? null,
      JSON.stringify(said ?? []),
      (input.search ?? '').toUpperCase(),
      input.after,
    ],
  );
  const shown = rows.slice(0, PAGE).map((row) => ({
    ...row,
    buyer: { person: row.buyer },
    countryName: countryName(row.country),
    behind: `/post/orders/${row.key.split('/').map(encodeURIComponent).join('/')}`,
  }));
  return {
    ...nothing(),
    from: input.from ?? null,
    to: input.to ?? null,
    sentence: shown.length === 0 ? 'No order matches.' : 'The latest first.',
    rows: shown,
    figures: [
      {
        figure: 'table',
        title: 'Orders',
        columns: [
          { field: 'order', label: 'Order', kind: 'text', behind: 'behind' },
          { field: 'buyer', label: 'Buyer', kind: 'person' },
          { field: 'countryName', label: 'To', kind: 'text' },
          { field: 'promise', label: 'Promised for', kind: 'day' },
          { field: 'state', label: 'State', kind: 'code' },
        ],
      },
    ],
    more: { next: rows.length > PAGE ? input.after + PAGE : null },
  };
}
export const orders = report({ title: 'Orders', input: ordersInput, run: listOrders });

async function listPacked(ask: Ask): Promise<Answered> {
  const found = await ask.query<{
    parcel: string;
    orders: string;
    country: string;
    packed: string;
    promise: string;
    weight: number | null;
    format: string | null;
  }>(
    "SELECT parcel, orders, country, packed, promise, weight, format FROM parcels WHERE state = 'packed' ORDER BY promise, packed, parcel",
  );
  const buyers = await ask.query<{ order: string; buyer: string }>(
    `SELECT o.order_key AS "order", o.buyer FROM orders o JOIN parcel_orders p ON p.order_key = o.order_key
     JOIN parcels c ON c.parcel = p.parcel WHERE c.state = 'packed'`,
  );
  const buyerOf = new Map(buyers.map(({ order, buyer }) => [order, buyer]));
  const tariffs = await readTariffs(ask);
  const offersOf = await Promise.all(
    found.map(async ({ orders: keys, country, weight, format }) => {
      if (weight === null) return [];
      const states = await Promise.all(keys.split(' ').map((key) => ask.state(orderKind, key)));
      const post = { country, weight, wants: wantsOf(states), day: ask.today };
      return offersFor(tariffs, format ? { ...post, format: format as Format } : post).fit;
    }),
  );
  const rows = found.map(({ orders: keys, ...row }, at) => ({
    ...row,
    /** The cheapest first. */
    offers: offersOf[at],
    keys: keys.split(' '),
    orders: keys
      .split(' ')
      .map((key) => key.slice(key.indexOf('/') + 1))
      .join(', '),
    buyer: { person: buyerOf.get(keys.split(' ')[0]!) ?? '' },
    countryName: countryName(row.country),
    behind: `/post/parcels/${encodeURIComponent(row.parcel)}`,
  }));
  return {
    ...nothing(),
    sentence:
      rows.length === 0
        ? 'No parcel waits to be posted.'
        : `${rows.length === 1 ? '1 parcel waits' : `${rows.length} parcels wait`} to be posted.`,
    rows,
    figures: [
      {
        figure: 'table',
        title: 'Packed, not posted yet',
        columns: [
          { field: 'orders', label: 'Orders', kind: 'text', behind: 'behind' },
          { field: 'buyer', label: 'Buyer', kind: 'person' },
          { field: 'countryName', label: 'To', kind: 'text' },
          { field: 'promise', label: 'Promised for', kind: 'day' },
        ],
      },
    ],
  };
}
export const packed = report({ title: 'Packed, not posted yet', input: z.strictObject({}), run: listPacked });

async function tellShop(ask: Ask): Promise<Answered> {
  const [facts, tariffs] = [await readFacts(ask), await readTariffs(ask)];
  return {
    ...nothing(),
    sentence: 'How the shop works.',
    more: { facts, tariffs },
  };
}
export const shop = report({
  title: 'The shop’s settings',
  unlisted: true,
  input: z.strictObject({}),
  run: tellShop,
});
