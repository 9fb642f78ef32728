/** Which rows of the shop's tables an order stands for. */
import { projection, type Row } from '../../server/contract/plugin.ts';
import { daysBetween } from './days.ts';
import { dayOf, type Order, type OrderLine, openOf, postedOn } from './state/order.ts';
import * as tables from './tables.ts';

type Rows = Readonly<Record<string, readonly Row[]>>;

function stateOf(order: Order, posted: string | undefined): string {
  if (order.cancelledAt) return 'cancelled';
  if (order.lines.some((line) => openOf(order, line) > 0)) return 'open';
  if (order.parcels.some((sent) => sent.state === 'packed')) return 'packed';
  if (!posted) return order.downloads.length > 0 || !order.lines.some(unfetched(order)) ? 'done' : 'open';
  return order.parcels.every((sent) => sent.state !== 'posted') ? 'done' : 'posted';
}

const unfetched = (order: Order) => (line: OrderLine) =>
  line.download === true && !line.cancelled && !order.downloads.some((granted) => granted.line === line.line);

/** The order's value where all its prices are in one currency. */
function worthOf(order: Order): { value: number | null; currency: string | null } {
  const priced = order.lines.filter((line) => !line.cancelled);
  const currency = priced[0]?.price?.currency;
  if (currency === undefined || priced.some((line) => line.price?.currency !== currency))
    return { value: null, currency: null };
  return { value: priced.reduce((sum, line) => sum + line.price!.amount * line.quantity, 0), currency };
}

const openRows = (order: Order): Row[] =>
  order.lines.flatMap((line) => {
    const open = unfetched(order)(line) ? line.quantity : openOf(order, line);
    if (open === 0) return [];
    return [
      {
        order: order.order,
        number: order.number,
        line: line.line,
        item: line.item,
        quantity: open,
        placed: order.placed!,
        promise: order.promise,
        country: order.country,
        buyer: order.buyer!,
        addressed: order.address ? 1 : 0,
        came: order.came ? 1 : 0,
        again: order.again[line.line] ? 1 : 0,
        download: line.download ? 1 : 0,
      },
    ];
  });

/** One order in the sums; those without anything to post count as neither posted nor late. */
function sums(order: Order, posted: string | undefined): Rows {
  const placed = order.placed!;
  if (!order.lines.some((line) => line.cancelled || !line.download)) return {};
  const cancelled = order.cancelledAt !== undefined;
  const waits = !cancelled && !posted;
  const row = {
    country: order.country,
    days: posted ? Math.max(0, daysBetween(placed, posted)) : -1,
    due: waits ? order.promise : '',
    orders: 1,
    posted: posted ? 1 : 0,
    on_time: posted && posted <= order.promise ? 1 : 0,
    cancelled: cancelled ? 1 : 0,
  };
  return {
    orders_by_month: [{ month: placed.slice(0, 7), ...row }],
    orders_by_day: [{ day: placed, ...row }],
    waiting_orders: waits ? [{ country: order.country, placed, promise: order.promise, orders: 1 }] : [],
  };
}

const sales = (order: Order): Row[] =>
  order.lines
    .filter((line) => !line.cancelled)
    .map((line) => ({
      day: order.placed!,
      item: line.item,
      country: order.country,
      currency: line.price?.currency ?? '',
      quantity: line.quantity,
      amount: line.quantity * (line.price?.amount ?? 0),
      lines: 1,
    }));

const money = (order: Order): Row[] => {
  const { placed, country } = order;
  const row = (kind: string, { amount, currency }: { amount: number; currency: string }) => ({
    day: placed!,
    country,
    kind,
    currency,
    amount,
    orders: 1,
  });
  return [
    ...(order.postage ? [row('postage', order.postage)] : []),
    ...order.refunds.map((paid) => row('refund', paid)),
  ];
};

export const orderList = projection<Order>({
  version: 2,
  of: 'order',
  tables: {
    orders: tables.orders,
    open_lines: tables.openLines,
    orders_by_month: tables.ordersByMonth,
    orders_by_day: tables.ordersByDay,
    waiting_orders: tables.waitingOrders,
    sales_by_day: tables.salesByDay,
    money_by_day: tables.moneyByDay,
    pictures: tables.pictures,
    asked: tables.asked,
  },
  rows: (order): Rows => {
    if (!order.placed) return {};
    const posted = postedOn(order);
    return {
      orders: [
        {
          order: order.order,
          number: order.number,
          source: order.source,
          buyer: order.buyer!,
          country: order.country,
          placed: order.placed,
          promise: order.promise,
          state: stateOf(order, posted),
          posted: posted ?? null,
          ...worthOf(order),
          came: order.came ? 1 : 0,
          changedSeq: order.changedSeq,
        },
      ],
      open_lines: openRows(order),
      ...sums(order, posted),
      sales_by_day: sales(order),
      money_by_day: money(order),
      asked: order.told
        .filter((it) => it.message === 'has-it-come')
        .map((it) => ({ order: order.order, day: dayOf(it.at) })),
      pictures: order.pictures.flatMap((it) =>
        it.sha256 === undefined
          ? []
          : [
              {
                order: order.order,
                buyer: it.buyer,
                sha256: it.sha256,
                width: it.width ?? null,
                height: it.height ?? null,
                piece: it.piece ?? null,
                show: it.allows.includes('show') ? 1 : 0,
                name: it.allows.includes('name') ? 1 : 0,
                seq: it.seq,
                day: dayOf(it.at),
              },
            ],
      ),
    };
  },
});
