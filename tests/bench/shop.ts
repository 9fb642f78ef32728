/** How long the shop's two pages take with 100,000 orders, beside a bare count of the same rows. */
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import shopOrders from '../../plugins/shop-orders/index.ts';
import type { NewEntry } from '../../server/contract/entry.ts';
import type { Host } from '../../server/host/host.ts';
import type { Append } from '../../server/log/log.ts';
import { openHost } from '../../server/open-host.ts';
import { studio } from '../../server/studio/studio.ts';
import { seeded } from '../support/seeded.ts';

const COUNTRIES = ['GB', 'US', 'DE', 'FR', 'JP', 'NL', 'IS', 'GR', 'KR', 'NZ', 'CA', 'AU', 'IN', 'CZ', 'IL'];
const DAYS = 1_460;
const FIRST = Date.UTC(2022, 6, 1);
const TODAY = FIRST + DAYS * 86_400_000;
/** Stands for words in the erasable store. */
const ADDRESS = { text: 'bench', hash: '0'.repeat(64) };
/** Orders that are still to be packed. */
const OPEN = 300;
const GROUP = 10_000;
const RUNS = 31;
/** What a person waits without noticing much, ms. */
const MOST = 100;

const dayAt = (n: number): string => new Date(FIRST + n * 86_400_000).toISOString().slice(0, 10);
const idAt = (n: number): string => `01980000-0000-7000-8000-${n.toString(16).padStart(12, '0')}`;

export interface ShopTimes {
  readonly orders: number;
  /** Seconds. */
  readonly recording: number;
  /** ms, medians. */
  readonly today: number;
  readonly fulfilment: number;
  readonly bare: number;
  readonly reached: boolean;
  readonly text: string;
}

type Said = Pick<NewEntry, 'name' | 'streams' | 'data'>;

/** What the shop's commands record, in the order in which it happens, so that nothing is folded again. */
function history(orders: number): Append[] {
  const random = seeded(23);
  const all: { day: number; entries: Said[] }[] = [];
  const say = (day: number, ...entries: Said[]) => all.push({ day, entries });
  const item = 'house-lantern-template';
  say(0, {
    name: 'item.added',
    streams: [`item:${item}`],
    data: { item, facts: { name: 'House Lantern template', kind: 'template' } },
  });
  say(0, { name: 'stock.counted', streams: [`item:${item}`], data: { item, counted: orders } });
  for (let n = 0; n < orders; n++) {
    const open = n >= orders - OPEN;
    const placed = open ? DAYS - 3 : Math.floor((n / orders) * (DAYS - 3));
    const country = COUNTRIES[Math.floor(random() ** 2 * COUNTRIES.length)]!;
    const order = `shop/${n}`;
    const promise = dayAt(placed + 4);
    const lines = [{ line: '1', item, quantity: 1, price: { amount: 650, currency: 'GBP' } }];
    const words = { name: ADDRESS, address: ADDRESS };
    say(placed, {
      name: 'order.placed',
      streams: [`order:${order}`],
      data: {
        order,
        number: String(n),
        source: 'shop',
        buyer: `buyer-${n % 20_000}`,
        ...words,
        country,
        promise,
        lines,
        way: 'file',
      },
    });
    if (open) continue;
    const posted = Math.min(DAYS, placed + Math.floor(random() * 6));
    const parcel = `p-${n}`;
    const both = [`parcel:${parcel}`, `order:${order}`];
    const contents = [{ order, line: '1', item, quantity: 1 }];
    const packed = { parcel, contents, country, placed: dayAt(placed), promise };
    say(posted, { name: 'parcel.packed', streams: [...both, `item:${item}`], data: packed });
    say(posted, { name: 'parcel.posted', streams: both, data: { parcel } });
    const came = posted + 2 + Math.floor(random() * 20);
    if (came < DAYS && random() < 0.9)
      say(came, { name: 'parcel.arrived', streams: both, data: { parcel, told: 'buyer' } });
  }
  return all
    .sort((a, b) => a.day - b.day)
    .map(({ day, entries }, n) => ({
      command: idAt(n + 1),
      fingerprint: '0'.repeat(64),
      who: 'maker',
      device: 'bench',
      expect: {},
      entries: entries.map((entry) => ({ ...entry, version: 1, happenedAt: dayAt(day) })),
    }));
}

async function median(work: () => Promise<unknown> | unknown): Promise<number> {
  const times: number[] = [];
  for (let n = 0; n < RUNS; n++) {
    const began = performance.now();
    await work();
    times.push(performance.now() - began);
  }
  return times.sort((a, b) => a - b)[RUNS >> 1]!;
}

async function fill(host: Host, orders: number, progress: (what: string) => void): Promise<void> {
  const all = history(orders);
  for (let from = 0; from < all.length; from += GROUP) {
    progress(`the shop: ${Math.round((100 * from) / all.length)} %`);
    const failed = (await host.log.appendAll(all.slice(from, from + GROUP))).find(
      (it) => it instanceof Error,
    );
    if (failed) throw failed;
  }
  progress('the shop’s read model');
}

export async function benchShop(
  folder: string,
  progress: (what: string) => void,
  orders = 100_000,
): Promise<ShopTimes> {
  const dir = join(folder, 'shop');
  mkdirSync(dir, { recursive: true });
  const host = await openHost({ dir, plugins: [studio, shopOrders], clock: () => new Date(TODAY) });
  try {
    const began = performance.now();
    await fill(host, orders, progress);
    await host.report('shop-orders', 'today', {});
    const recording = (performance.now() - began) / 1000;
    const ask = (name: string) => median(() => host.report('shop-orders', name, {}));
    const today = await ask('today');
    const fulfilment = await ask('fulfilment');
    const db = new Database(join(dir, 'read', 'shop-orders.db'));
    const count = db.prepare('SELECT country, count(*), sum(length(placed)) FROM orders GROUP BY country');
    const bare = await median(() => count.all());
    db.close();
    const reached = today < MOST && fulfilment < MOST;
    const text = [
      `The shop with ${orders.toLocaleString('en-GB')} orders, recorded and read in ${recording.toFixed(0)} s:`,
      `to pack today ${today.toFixed(1)} ms, posted and arrived ${fulfilment.toFixed(1)} ms (medians of ${RUNS}; at most ${MOST} ms: ${reached ? 'reached' : 'NOT reached'}).`,
      `Beside a bare count of the orders by country (${bare.toFixed(1)} ms): ${(today / bare).toFixed(2)} and ${(fulfilment / bare).toFixed(2)} times.`,
    ].join('\n');
    return { orders, recording, today, fulfilment, bare, reached, text };
  } finally {
    await host.close();
    rmSync(dir, { recursive: true, force: true });
  }
}
