/** An order is changed, said otherwise by its shop, or cancelled. */
import { z } from 'zod';
import { command } from '../../../server/contract/plugin.ts';
import { type Refusal, refuse } from '../../../server/contract/streams.ts';
import { freeText } from '../../../server/contract/text.ts';
import { records } from '../events.ts';
import { type Order, openOf, orderKind } from '../state/order.ts';
import { type Line, lineId, orderKey, way } from '../values.ts';
import { itemStream } from './items.ts';
import { said, TEXTS } from './order-input.ts';
import { itemsOf, newItems, noSuchOrder, orderStream, unnamed, withIds } from './placing.ts';

const changing = { order: orderKey, ...said, way: way.default('hand') };

/** A line may not become less than what is packed of it, nor go when something is. */
function packedAlready(order: Order, lines: readonly Line[] | undefined): Refusal | undefined {
  for (const old of lines ? order.lines : []) {
    const packed = old.cancelled ? 0 : old.quantity + (order.again[old.line] ?? 0) - openOf(order, old);
    const now = lines!.find((one) => one.line === old.line)?.quantity ?? 0;
    if (!old.download && packed > now + (order.again[old.line] ?? 0))
      return refuse(
        'packed-already',
        `${packed} of ${old.item} are packed already, so the line cannot become ${now}; unpack the parcel first.`,
        'lines',
      );
  }
  return undefined;
}

type Changes = Omit<z.infer<z.ZodObject<typeof changing>>, 'order' | 'way'>;

/** What is said otherwise than the order has it; texts are compared before a change is asked for. */
function different(order: Order, changes: Changes, lines: readonly Line[] | undefined) {
  const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);
  const before = order.lines.filter((one) => !one.cancelled).map(({ cancelled: _, ...one }) => one);
  const { lines: __, ...facts } = changes;
  const kept = Object.entries(facts).filter(([field, value]) => !same(value, order[field as keyof Order]));
  return {
    ...Object.fromEntries(kept),
    ...(lines && !same(sorted(lines), sorted(before)) ? { lines: [...lines] } : {}),
  };
}

const sorted = (lines: readonly Line[]) =>
  [...lines]
    .sort((a, b) => (a.line < b.line ? -1 : 1))
    .map(({ line, item, quantity, price, download }) => [
      line,
      item,
      quantity,
      price?.amount,
      price?.currency,
      download,
    ]);

export const changeOrder = command({
  title: 'Change an order',
  input: z.strictObject(changing),
  texts: [...TEXTS],
  streams: (input) => [orderStream(input.order), ...itemsOf(input.lines).filter(Boolean).map(itemStream)],
  decide: ({ order: key, way: how, ...changes }, streams) => {
    const order = streams.of(orderKind, key);
    if (!order.placed) return noSuchOrder();
    const wrong = unnamed(changes.lines);
    if (wrong) return wrong;
    const lines = changes.lines && withIds(changes.lines, streams, order.lines);
    const packed = packedAlready(order, lines);
    if (packed) return packed;
    /* What a file or feed says is kept whole, so that the next one is held against it. */
    const data =
      how === 'hand'
        ? different(order, changes, lines)
        : { ...changes, ...(lines ? { lines: [...lines] } : { lines: undefined }) };
    if (Object.keys(data).length === 0) return [];
    const added = changes.lines ? newItems(changes.lines, streams) : [];
    return [...added, records('order.changed', [orderStream(key)], { order: key, way: how, ...data })];
  },
});

/** A feed says something else than before: kept beside the order until the user has looked at it. */
export const changeCame = command({
  title: 'Note that the shop says an order is different',
  input: z.strictObject({ ...changing, cancelled: z.boolean().optional() }),
  texts: [...TEXTS],
  streams: (input) => [orderStream(input.order), ...itemsOf(input.lines).filter(Boolean).map(itemStream)],
  decide: ({ order: key, lines: asked, ...said }, streams) => {
    const order = streams.of(orderKind, key);
    if (!order.placed) return noSuchOrder();
    const wrong = unnamed(asked);
    if (wrong) return wrong;
    const lines = asked ? { lines: withIds(asked, streams, order.lines) } : {};
    const added = asked ? newItems(asked, streams) : [];
    return [...added, records('order.change-came', [orderStream(key)], { order: key, ...said, ...lines })];
  },
});

export const acceptChange = command({
  title: 'Take over what the shop changed',
  input: z.strictObject({ order: orderKey }),
  streams: (input) => [orderStream(input.order)],
  decide: ({ order: key }, streams) => {
    const order = streams.of(orderKind, key);
    if (!order.came) return order.placed ? [] : noSuchOrder();
    const { seq: _, cancelled, order: __, ...said } = order.came;
    if (cancelled) {
      const lines = openOrNot(order);
      if (lines.length === 0) return refuse('nothing-to-cancel', 'All of it has gone already.', 'order');
      return [records('order.cancelled', [orderStream(key)], { order: key, lines, way: said.way })];
    }
    const packed = packedAlready(order, said.lines);
    return packed ?? [records('order.changed', [orderStream(key)], { order: key, ...said })];
  },
});

export const declineChange = command({
  title: 'Leave an order as it is',
  input: z.strictObject({ order: orderKey }),
  streams: (input) => [orderStream(input.order)],
  decide: ({ order: key }, streams) => {
    const order = streams.of(orderKind, key);
    if (!order.placed) return noSuchOrder();
    return order.came ? [records('order.change-declined', [orderStream(key)], { order: key })] : [];
  },
});

/** Lines of which nothing has been packed. */
const openOrNot = (order: Order): string[] =>
  order.lines
    .filter((one) => !one.cancelled && (one.download || openOf(order, one) === one.quantity))
    .map((one) => one.line);

export const cancelOrder = command({
  title: 'Cancel an order, or some of it',
  input: z.strictObject({
    order: orderKey,
    lines: z.array(lineId).min(1).optional(),
    why: freeText().optional(),
    way: way.default('hand'),
  }),
  texts: ['why'],
  streams: (input) => [orderStream(input.order)],
  decide: (input, streams) => {
    const order = streams.of(orderKind, input.order);
    if (!order.placed) return noSuchOrder();
    const free = openOrNot(order);
    const asked = input.lines ?? order.lines.filter((one) => !one.cancelled).map((one) => one.line);
    const stuck = asked.find(
      (one) => !free.includes(one) && !order.lines.find((it) => it.line === one)?.cancelled,
    );
    if (stuck !== undefined)
      return refuse(
        'packed-already',
        'Something of it is packed or posted already. Unpack the parcel first, or cancel the other lines.',
        'lines',
      );
    const lines = asked.filter((one) => free.includes(one));
    if (lines.length === 0) return [];
    return [records('order.cancelled', [orderStream(input.order)], { ...input, lines })];
  },
});
