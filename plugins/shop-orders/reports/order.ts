/** One order: what is in it, what is to be done with it, and its story. */
import { z } from 'zod';
import { moneyInWords } from '../../../server/contract/amounts.ts';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import type { Money } from '../../../server/contract/studio/values.ts';
import { dayInWords } from '../days.ts';
import { countryName } from '../post/countries.ts';
import { type Order, openOf, orderKind, postedOn } from '../state/order.ts';
import { storyLines } from '../story.ts';
import { orderKey, orderKeyOf } from '../values.ts';
import { type ItemRow, readItems } from './shop-settings.ts';

/** Of an answer whose all is in `more`. */
export const nothing = () => ({ rows: [], notes: [], figures: [] });

/** Minor units by currency: money of two currencies is never one sum. */
function sums(order: Order): Money[] {
  const by = new Map<string, number>();
  const add = ({ amount, currency }: Money, times = 1) =>
    by.set(currency, (by.get(currency) ?? 0) + amount * times);
  for (const { price, quantity, cancelled } of order.lines) if (price && !cancelled) add(price, quantity);
  if (order.postage) add(order.postage);
  return [...by].map(([currency, amount]) => ({ amount, currency }));
}

function linesOf(order: Order, items: ReadonlyMap<string, ItemRow>) {
  return order.lines.map((line) => {
    const item = items.get(line.item);
    return {
      ...line,
      price: line.price ?? null,
      name: item?.name ?? line.item,
      open: openOf(order, line),
      stock: item && item.counted === 1 ? item.stock : null,
      kind: item?.kind ?? 'other',
      file: (item?.facts.file ?? item?.facts.paper) !== undefined,
      piece: item?.facts.piece ?? null,
      paper: item?.facts.paper ?? null,
      download: line.download ?? false,
    };
  });
}

/** What a change from outside says, field by field; texts are filled in by the host. */
function cameOf({ came, ...order }: Order, items: ReadonlyMap<string, ItemRow>) {
  if (!came) return null;
  const fields = ['name', 'email', 'address', 'postcode', 'country', 'promise', 'note'] as const;
  const changed = fields.filter((field) => came[field] !== undefined);
  return {
    cancelled: came.cancelled ?? false,
    fields: changed.map((field) => ({ field, was: order[field] ?? null, now: came[field] ?? null })),
    postage: came.postage ? moneyInWords(came.postage) : null,
    postageWas: order.postage ? moneyInWords(order.postage) : null,
    linesWere: order.lines
      .filter(({ cancelled }) => !cancelled)
      .map(({ item, quantity }) => ({ name: items.get(item)?.name ?? item, quantity })),
    lines:
      came.lines?.map(({ item, quantity, price }) => ({
        name: items.get(item)?.name ?? item,
        quantity,
        price: price ?? null,
      })) ?? null,
  };
}

function sentence(order: Order): string {
  const to = `To ${countryName(order.country)}`;
  if (order.cancelledAt) return `${to}: cancelled.`;
  const posted = postedOn(order);
  if (posted === undefined) return `${to}, promised for ${dayInWords(order.promise)}.`;
  return posted <= order.promise
    ? `${to}: posted on ${dayInWords(posted)}, in time.`
    : `${to}: posted on ${dayInWords(posted)}; it was promised for ${dayInWords(order.promise)}.`;
}

async function run(ask: Ask, input: { order: string }): Promise<Answered> {
  const order = await ask.state(orderKind, input.order);
  if (!order.placed)
    return {
      ...nothing(),
      sentence: 'There is no such order at that time.',
      more: { order: null, story: [] },
    };
  const [items, story, others] = await Promise.all([
    readItems(ask),
    ask.story(`order:${input.order}`),
    ask.query<{ order: string; number: string; promise: string }>(
      `SELECT order_key AS "order", number, promise FROM orders
       WHERE buyer = ? AND state = 'open' AND order_key <> ? ORDER BY promise`,
      [order.buyer ?? '', input.order],
    ),
  ]);
  const lines = linesOf(order, items);
  return {
    ...nothing(),
    sentence: sentence(order),
    more: {
      order: {
        order: order.order,
        number: order.number,
        source: order.source,
        buyer: { person: order.buyer ?? '' },
        buyerId: order.buyer ?? null,
        name: order.name ?? null,
        email: order.email ?? null,
        address: order.address ?? null,
        postcode: order.postcode ?? null,
        country: order.country,
        countryName: countryName(order.country),
        placed: order.placed,
        promise: order.promise,
        posted: postedOn(order) ?? null,
        cancelled: order.cancelledAt ?? null,
        wants: order.wants ?? {},
        note: order.note ?? null,
        postage: order.postage ?? null,
        sums: sums(order),
        refunds: order.refunds,
        lines,
        parcels: order.parcels,
        downloads: order.downloads,
        told: order.told,
        pictures: order.pictures.map(
          ({ sha256, type, bytes, width, height, piece, allows, note, at, seq }) => ({
            ...{ seq, at, sha256: sha256 ?? null, type, bytes, width, height, allows },
            piece: piece ?? null,
            note: note ?? null,
          }),
        ),
        came: cameOf(order, items),
      },
      others,
      story: storyLines(story, (item) => items.get(item)?.name ?? item),
    },
  };
}

export const order = report({
  title: 'An order’s story',
  unlisted: true,
  input: z.strictObject({
    /** Its key, or its number in the one shop. */
    order: z
      .string()
      .transform((order) => (order.includes('/') ? order : orderKeyOf(order)))
      .pipe(orderKey),
  }),
  run,
});
