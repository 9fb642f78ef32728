import { randomUUID } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Item } from '../../../plugins/shop-orders/state/item.ts';
import { itemKind } from '../../../plugins/shop-orders/state/item.ts';
import { lookOn } from '../../../server/host/look.ts';
import { buildApp } from '../../../server/http/app.ts';
import { Jobs } from '../../../server/http/jobs.ts';
import { seeded } from '../../support/seeded.ts';
import { items } from '../../support/shop.ts';
import { NOON, type StudioHost, studioHost } from '../../support/studio-host.ts';

/* A month of a thousand orders, as a file and by single commands, through the server's own routes. */

const PORT = 4280;
const ADDRESS = `http://127.0.0.1:${PORT}`;
let studio: StudioHost;
let app: ReturnType<typeof buildApp>;

beforeAll(async () => {
  studio = await studioHost();
  await studio.tell(...items);
  const uploads = join(studio.dir, 'incoming');
  mkdirSync(uploads, { recursive: true });
  app = buildApp({
    host: studio.host,
    keeping: {
      instance: 'month',
      version: 'test',
      folder: studio.dir,
      uploads: { folder: uploads, limit: 16 * 1024 * 1024 },
      clock: () => NOON,
      imports: {},
      backup: () => Promise.reject(new Error('no backups here')),
    },
    jobs: new Jobs(randomUUID, console.error),
    port: () => PORT,
  });
});
afterAll(() => studio.close());

const headers = { host: `127.0.0.1:${PORT}`, origin: ADDRESS, 'x-wareboard-device': 'laptop' };

async function send(path: string, type: string, body: string): Promise<{ status: number; body: never }> {
  const answer = await app.request(`${ADDRESS}${path}`, {
    method: 'POST',
    headers: { ...headers, 'content-type': type },
    body,
  });
  return { status: answer.status, body: (await answer.json()) as never };
}

let commands = 0;
const command = (name: string, input: object, happenedAt?: string) =>
  send(
    '/api/commands',
    'application/json',
    JSON.stringify({
      id: `01980000-0000-7000-8000-${String(++commands).padStart(12, 'f')}`,
      command: name,
      input,
      ...(happenedAt ? { happenedAt } : {}),
    }),
  );

const report = async (name: string) => {
  const answer = await app.request(`${ADDRESS}/api/reports/shop-orders/${name}`, { headers });
  return (await answer.json()) as { rows: Record<string, unknown>[] };
};

const stockOf = async (item: string): Promise<Item> => {
  const look = await lookOn(studio.host, NOON);
  return (await look.states(itemKind, [item])).get(item)!;
};

test('a thousand orders come in, are packed, posted and arrive, and the stock is never below zero', async () => {
  const random = seeded(11);
  const countries = ['GB', 'US', 'DE', 'JP', 'IS'];
  const day = (n: number) => `2026-06-${String(1 + n).padStart(2, '0')}`;
  const rows = Array.from({ length: 1_000 }, (_, n) => {
    const country = countries[Math.floor(random() * countries.length)];
    const item = random() < 0.8 ? 'House Lantern template' : 'Hedgerow stamp set';
    return `${n + 1},${day(Math.floor(n / 40))},Buyer ${n},buyer${n}@example.org,${n} Nowhere Lane|Neverby,00000,${country},${item},1,6.50,GBP`;
  });
  const csv = [
    'order,placed,customer,email,address,postcode,country,item,quantity,price,currency',
    ...rows,
  ].join('\n');
  const taken = await send('/api/import/orders', 'text/csv', csv);
  expect(taken).toMatchObject({ status: 200, body: { rows: 1_000, bad: [], counts: { order: 1_000 } } });
  const again = await send('/api/import/orders', 'text/csv', csv);
  expect(again).toMatchObject({ body: { recorded: 0, repeated: 1_000 } });

  await command('stock.print', { item: 'house-lantern-template', count: 700 }, '2026-06-01');
  await command('stock.make', { item: 'hedgerow-stamp-set', count: 100 }, '2026-06-01');

  const before = await report('today');
  expect(before.rows).toHaveLength(1_000);
  const ready = before.rows.filter((row) => row.state === 'pack');
  expect(ready.length).toBe(before.rows.filter((row) => row.state !== 'short').length);

  /* Everything is tried, in the order of the list: what is short is refused, the rest goes. */
  const packing = await Promise.all(
    before.rows.map((row, n) =>
      command('parcel.pack', { parcel: `parcel-${n}`, orders: [row.key] }, '2026-06-28'),
    ),
  );
  const packed = packing.flatMap(({ status }, n) => (status === 200 ? [n] : []));
  const refused = packing.filter(({ status }) => status !== 200);
  expect(packed.length).toBe(ready.length);
  expect(new Set(refused.map(({ body }) => (body as { code: string }).code))).toEqual(
    new Set(['not-in-stock']),
  );
  for (const item of ['house-lantern-template', 'hedgerow-stamp-set'])
    expect((await stockOf(item)).stock).toBeGreaterThanOrEqual(0);

  await Promise.all(
    packed.map((n) => command('parcel.post', { parcel: `parcel-${n}`, service: 'Letter' }, '2026-06-28')),
  );
  await Promise.all(
    packed.slice(0, 300).map((n) => command('parcel.arrive', { parcel: `parcel-${n}` }, '2026-06-30')),
  );
  const { rows: byCountry } = await report('fulfilment');
  const sum = (field: string) => byCountry.reduce((total, row) => total + (row[field] as number), 0);
  expect([sum('orders'), sum('posted'), sum('arrived')]).toEqual([1_000, packed.length, 300]);
  expect((await report('in-the-post')).rows).toHaveLength(packed.length - 300);
  expect((await report('today')).rows).toHaveLength(1_000 - packed.length);
});
