/** The post's lines of Today: what is to be settled, packed, made and posted, and what is late on its way. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import type { WaitingRow } from '../../../server/contract/telling.ts';
import { countryName } from '../post/countries.ts';
import { latest } from './in-the-post.ts';
import { nothing } from './order.ts';
import { reorder } from './reorder.ts';
import { type TodayLine, todayLines, toMake } from './today.ts';

/** Headings in their order: what may be lost first, then what others wait for. */
const HEADS = {
  'ask-buyer': ['Late in the post', 36],
  settle: ['Orders to settle', 52],
  'pack-orders': ['Orders to pack', 54],
  'post-parcels': ['Parcels to post', 56],
  'make-for-orders': ['To print or make for orders', 58],
  'make-more': ['Soon to print or make again', 84],
} as const;
type Does = keyof typeof HEADS;

/** Lines of one kind; the rest stand under Post. */
const MOST = 8;

const orderTo = (key: string): string => `/post/orders/${key.split('/').map(encodeURIComponent).join('/')}`;
const under = (does: Does, row: Omit<WaitingRow, 'does' | 'title' | 'order'>): WaitingRow => ({
  ...{ does, title: HEADS[does][0], order: HEADS[does][1] },
  ...row,
});

/** One line for each order, in the order of the promised days. */
function orderRows(lines: readonly TodayLine[]): WaitingRow[] {
  const by = new Map<string, TodayLine[]>();
  for (const line of lines) by.set(line.key, [...(by.get(line.key) ?? []), line]);
  return [...by.values()].flatMap((all): WaitingRow[] => {
    const first = all[0]!;
    const asks = all.find(({ state }) => state === 'ask');
    const packs = all.filter(({ state }) => state === 'pack');
    if (!asks && packs.length === 0) return [];
    const things = packs.map(({ quantity, item }) => `${quantity} × ${item}`).join(', ');
    return [
      under(asks ? 'settle' : 'pack-orders', {
        what: `Order ${first.order}`,
        where: asks ? asks.why : `${things}, to ${countryName(first.country)}`,
        person: { person: first.buyer },
        due: first.promise,
        to: orderTo(first.key),
      }),
    ];
  });
}

async function parcelRow(ask: Ask): Promise<WaitingRow[]> {
  const [packed] = await ask.query<{ parcels: number; since: string | null; due: string | null }>(
    "SELECT count(*) AS parcels, min(packed) AS since, min(promise) AS due FROM parcels WHERE state = 'packed'",
  );
  if (!packed || packed.parcels === 0) return [];
  return [
    under('post-parcels', {
      what: packed.parcels === 1 ? '1 parcel is packed' : `${packed.parcels} parcels are packed`,
      since: packed.since,
      due: packed.due,
      to: '/post/posting',
    }),
  ];
}

const DO: Readonly<Record<string, string>> = {
  ask: 'ask the buyer whether it has come',
  'send again': 'asked two weeks ago: send it again, pay back, or wait',
};

const sharesText = (share: number): string => (share >= 0.995 ? 'all' : `${Math.floor(share * 100)} in 100`);

async function lateRows(ask: Ask): Promise<{ rows: WaitingRow[]; all: number }> {
  const { rows, all } = await latest(ask, MOST);
  return {
    all,
    rows: rows.map(({ key, parcel, country, posted, days, lateBeyond, advice }) =>
      under('ask-buyer', {
        what: `Order ${key.slice(key.indexOf('/') + 1)}`,
        where: `${days} days on the way to ${countryName(country)}, longer than ${sharesText(Number(lateBeyond))} of its like: ${DO[advice] ?? DO.ask}`,
        since: posted,
        to: `/post/parcels/${encodeURIComponent(parcel)}`,
      }),
    ),
  };
}

const makeRows = (lines: readonly TodayLine[]): WaitingRow[] =>
  toMake(lines).map(({ item, name, missing, orders, first }) =>
    under('make-for-orders', {
      what: `${missing} ${name}`,
      where: orders === 1 ? 'for 1 order' : `for ${orders} orders`,
      due: first,
      to: `/post/items/${encodeURIComponent(item)}`,
    }),
  );

async function moreRows(ask: Ask, made: ReadonlySet<string>): Promise<WaitingRow[]> {
  const { rows } = await reorder.run(ask, {});
  return rows
    .filter(({ item, print, counted }) => Number(print) > 0 && counted === true && !made.has(item as string))
    .map(({ item, name, print, stock, reorderAt }) =>
      under('make-more', {
        what: `${print} ${name}`,
        where: `${stock} in stock; time to make more from ${reorderAt} on`,
        to: `/post/items/${encodeURIComponent(item as string)}`,
      }),
    );
}

async function run(ask: Ask): Promise<Answered> {
  const lines = await todayLines(ask);
  const short = toMake(lines);
  const late = await lateRows(ask);
  const all = [
    ...late.rows,
    ...orderRows(lines),
    ...(await parcelRow(ask)),
    ...makeRows(lines),
    ...(await moreRows(ask, new Set(short.map(({ item }) => item)))),
  ];
  const many = all.length + late.all - late.rows.length;
  const kinds = Object.keys(HEADS) as Does[];
  const of = (does: Does) => all.filter((row) => row.does === does);
  const unlisted = kinds.flatMap((does) => {
    const over = (does === 'ask-buyer' ? late.all : of(does).length) - MOST;
    return over > 0 ? [[does, over] as const] : [];
  });
  return {
    ...nothing(),
    sentence: many === 1 ? '1 thing of the post waits.' : `${many} things of the post wait.`,
    rows: kinds.flatMap((does) => of(does).slice(0, MOST)),
    more: { unlisted: Object.fromEntries(unlisted) },
  };
}

export const waiting = report({
  title: 'What of the post waits',
  unlisted: true,
  tells: 'waiting',
  input: z.strictObject({}),
  run,
});

/** Days of the calendar are no more than these; what is promised later comes nearer by itself. */
const DATES = 300;

async function runDates(ask: Ask): Promise<Answered> {
  const open = await ask.query<{
    order: string;
    number: string;
    country: string;
    promise: string;
    changed: number;
  }>(
    `SELECT order_key AS "order", number, country, promise, changed_seq AS changed FROM orders
     WHERE state IN ('open', 'packed') ORDER BY promise, order_key LIMIT ${DATES}`,
  );
  return {
    ...nothing(),
    sentence: open.length === 1 ? '1 promised day.' : `${open.length} promised days.`,
    rows: open.map(({ order, number, country, promise, changed }) => ({
      uid: `order-${order}`,
      what: `Post order ${number}`,
      from: promise,
      where: countryName(country),
      changed,
      to: orderTo(order),
    })),
  };
}

export const dates = report({
  title: 'Promised days of orders',
  unlisted: true,
  tells: 'dates',
  input: z.strictObject({}),
  run: runDates,
});
