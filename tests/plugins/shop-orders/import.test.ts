import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { ordersFile } from '../../../plugins/shop-orders/incoming/plan.ts';
import { type Order, orderKind } from '../../../plugins/shop-orders/state/order.ts';
import { lookOn } from '../../../server/host/look.ts';
import { effective } from '../../../server/host/order.ts';
import { importFile, type PluginImportRequest } from '../../../server/import/plugin-import.ts';
import { done } from '../../support/given.ts';
import { NOON, type StudioHost, studioHost } from '../../support/studio-host.ts';

const HEADINGS =
  'order,placed,promise,customer,email,address,postcode,country,item,quantity,price,currency,posted,service,number,arrived,note';
const ROWS = [
  '1043,2026-05-01,2026-05-04,Isolde Farthingdown,isolde@example.org,1 Nowhere Lane|Farthing,ZZ1 1ZZ,GB,House Lantern template,2,6.50,GBP,2026-05-03,Tracked letter,RB123456785GB,2026-05-06,',
  '1043,2026-05-01,2026-05-04,Isolde Farthingdown,isolde@example.org,1 Nowhere Lane|Farthing,ZZ1 1ZZ,GB,Hedgerow stamp set,1,18,GBP,2026-05-03,Tracked letter,RB123456785GB,2026-05-06,',
  '1044,2026-05-02,,窯田 しのぶ 🏺,shinobu@example.org,東京都架空区|1-2-3,000-0000,JP,Hedgerow stamp set,1,2400,JPY,,,,,"=HYPERLINK(""http://x"")"',
  '1045,2026-05-02,,ليان الفخّاري,,شارع لا مكان ١|لا مكان,,SA,Shoreline stamp set,1,2.400,KWD,,,,,',
];

let studio: StudioHost;
beforeEach(async () => {
  studio = await studioHost();
});
afterEach(() => studio.close());

const take = (rows: readonly string[], more: Partial<PluginImportRequest> = {}) =>
  importFile('orders', ordersFile, {
    host: studio.host,
    source: Buffer.from([more.mapping ? '' : HEADINGS, ...rows].filter(Boolean).join('\r\n')),
    who: 'ansa',
    device: 'bench',
    now: () => NOON,
    ...more,
  });

async function order(key: string): Promise<Order> {
  const look = await lookOn(studio.host, NOON);
  return (await look.states(orderKind, [key])).get(key)!;
}
/** What counts of a stream, as its strike names it. */
const entriesOf = async (stream: string) =>
  effective((await studio.host.log.streams([stream])).get(stream)!.entries).map(({ seq }) => seq);
const count = async () => (await studio.host.log.head()).count;
const report = async (name: string) => (await studio.host.report('shop-orders', name, {})).rows;

describe('a file of orders', () => {
  test('becomes orders, parcels and what is still to pack', async () => {
    const summary = await take(ROWS);
    expect(summary).toMatchObject({ rows: 4, bad: [], counts: { order: 3, parcel: 1 }, repeated: 0 });
    expect(summary.added.items).toEqual([
      'House Lantern template',
      'Hedgerow stamp set',
      'Shoreline stamp set',
    ]);
    expect((await order('shop/1043')).parcels).toMatchObject([
      { state: 'arrived', postedAt: '2026-05-03', endedAt: '2026-05-06', number: 'RB123456785GB' },
    ]);
    expect((await report('today')).map((row) => row.order)).toEqual(['1044', '1045']);
    const kwd = (await order('shop/1045')).lines[0]!.price;
    expect(kwd).toEqual({ amount: 2400, currency: 'KWD' });
  });

  test('says first what it would record, and records nothing', async () => {
    const summary = await take(ROWS, { dryRun: true });
    expect(summary.preview![0]!.sentences).toEqual([
      'Order 1043, placed on 2026-05-01, to GB: 2 × House Lantern template, 1 × Hedgerow stamp set.',
      'Order 1043: packed.',
      'Order 1043: posted on 2026-05-03 by Tracked letter, RB123456785GB.',
      'Order 1043: arrived on 2026-05-06.',
    ]);
    expect(await count()).toBe(0);
    expect(summary.recorded).toBe((await take(ROWS)).recorded);
  });

  test('that comes again records nothing, even where I changed the order since', async () => {
    await take(ROWS);
    await studio.tell(done('2026-05-03', 'order.change', { order: 'shop/1044', promise: '2026-05-20' }));
    const before = await count();
    const again = await take(ROWS);
    expect(again).toMatchObject({ recorded: 0, repeated: 4, bad: [] });
    expect(await count()).toBe(before);
    expect((await order('shop/1044')).promise).toBe('2026-05-20');
  });

  test('does not bring back an order that I struck out, but says so, and takes it in again where I ask for it', async () => {
    await take(ROWS);
    await studio.tell(
      done('2026-05-04', 'entry.strike', { seqs: await entriesOf('order:shop/1044'), why: 'a trial' }),
    );
    expect(await take(ROWS)).toMatchObject({
      recorded: 0,
      left: ['1044'],
      notes: [/Struck out here before.*1044/],
    });
    expect(await take(ROWS, { again: true, dryRun: true })).toMatchObject({
      left: [],
      preview: [{ sentences: [/^Order 1044, placed/] }],
    });
    expect(await take(ROWS, { again: true })).toMatchObject({ left: [], bad: [] });
    expect((await order('shop/1044')).placed).toBeDefined();
    expect(await take(ROWS, { again: true })).toMatchObject({ recorded: 0 });
    await studio.tell(done('2026-05-04', 'entry.strike', { seqs: await entriesOf('order:shop/1044') }));
    expect(await take(ROWS)).toMatchObject({ recorded: 0, left: ['1044'] });
    expect((await take(ROWS, { again: true })).recorded).toBeGreaterThan(0);
  });

  test('that was amended shows what changed, and records that only', async () => {
    await take(ROWS);
    const amended = ROWS.map((row) =>
      row.replace('stamp set,1,2400,JPY', 'stamp set,3,2400,JPY').replace('|1-2-3', '|1-2-4'),
    );
    const shown = await take(amended, { dryRun: true });
    expect(shown.preview).toEqual([
      {
        line: 4,
        sentences: [
          'Order 1044 is different: the address is another one; Hedgerow stamp set: 1 at JP¥2,400 → 3 at JP¥2,400.',
        ],
      },
    ]);
    expect(await take(amended)).toMatchObject({ recorded: 1 });
    expect((await order('shop/1044')).lines.map((line) => line.quantity)).toEqual([3]);
    expect(await take(amended)).toMatchObject({ recorded: 0 });
  });

  test('that says now that something was posted, and later that it arrived', async () => {
    await take(ROWS);
    const posted = ROWS[2]!.replace('JPY,,,,', 'JPY,2026-05-05,Letter,UA123456785GB,');
    expect(await take([posted])).toMatchObject({ recorded: 2, bad: [] });
    const arrived = posted.replace('UA123456785GB,', 'UA123456785GB,2026-05-19');
    expect(await take([arrived])).toMatchObject({ recorded: 1, bad: [] });
    expect((await order('shop/1044')).parcels).toMatchObject([{ state: 'arrived', endedAt: '2026-05-19' }]);
  });

  test('meets what I packed by hand: the parcel is not packed twice', async () => {
    await take(ROWS);
    await studio.tell(
      done('2026-05-04', 'parcel.pack', { parcel: 'mine', orders: ['shop/1044'], anyway: true }),
    );
    expect(await take([ROWS[2]!.replace('JPY,,,,', 'JPY,2026-05-05,Letter,,')])).toMatchObject({
      recorded: 1,
      bad: [],
    });
    expect((await order('shop/1044')).parcels).toMatchObject([{ parcel: 'mine', state: 'posted' }]);
  });

  test('with two orders of one e-mail address is from one buyer', async () => {
    await take(ROWS);
    await take([
      ROWS[0]!
        .replace('1043', '1050')
        .replace('RB123456785GB', '')
        .replaceAll(/2026-05-0[36],?/g, ','),
    ]);
    expect((await order('shop/1050')).buyer).toBe((await order('shop/1043')).buyer);
  });

  test('and typed in under the same number is the same order', async () => {
    await take(ROWS);
    const outcome = await studio.ask('order.place', {
      number: '#1043',
      buyer: 'somebody',
      name: 'Isolde Farthingdown',
      country: 'GB',
      lines: [{ item: 'House Lantern template', quantity: 2 }],
    });
    expect(outcome).toMatchObject({ outcome: 'refused', refusal: { code: 'already-there' } });
  });

  test('with headings of its own is mapped once, and the next one is known', async () => {
    const theirs = [
      'Reference;Ordered;Who;Where to;What',
      '7;2026-05-01;Ásta Glerberg;IS;Hedgerow stamp set',
    ];
    const source = Buffer.from(theirs.join('\n'));
    const mapping = {
      Reference: 'order',
      Ordered: 'placed',
      Who: 'customer',
      'Where to': 'country',
      What: 'item',
    };
    const unmapped = await take([], { source });
    expect(unmapped.bad[0]!.expected).toMatch(/a heading ‘order’/);
    expect(await take([], { source, mapping, folder: studio.dir })).toMatchObject({
      counts: { order: 1 },
      bad: [],
    });
    expect(await take([], { source, folder: studio.dir })).toMatchObject({ repeated: 1, bad: [] });
    expect(await readFile(join(studio.dir, 'mappings.json'), 'utf8')).toContain('where_to');
  });
});

describe('what cannot be right is named, and the rest is recorded', () => {
  const row = (cells: Record<string, string>) => {
    const all: Record<string, string> = {
      order: '1',
      placed: '2026-05-01',
      customer: 'Isolde Farthingdown',
      country: 'GB',
      item: 'House Lantern template',
      quantity: '1',
      ...cells,
    };
    return HEADINGS.split(',')
      .map((heading) => `"${(all[heading] ?? '').replaceAll('"', '""')}"`)
      .join(',');
  };

  test.each([
    ['quantity', { quantity: '0' }, /whole number from 1/],
    ['quantity', { quantity: '-2' }, /whole number from 1/],
    ['price', { price: '1e99' }, /a price like/],
    ['currency', { price: '5', currency: 'ZZZ' }, /three letters \(ISO 4217\)/],
    ['country', { country: 'XX' }, /two letters \(ISO 3166-1\)/],
    ['country', { country: 'Japan' }, /JP for Japan/],
    ['country', { country: 'UK' }, /GB for United Kingdom/],
    ['number', { posted: '2026-05-02', number: 'RB12345678OGB' }, /the letter O at place 11/],
    [
      'address',
      { address: Array.from({ length: 40 }, (_, n) => `line ${n}`).join('|') },
      /at most 10 lines.*this has 40/,
    ],
    ['placed', { placed: '2026-02-30' }, /no such day/],
    ['placed', { placed: '2026-07-30' }, /a day that has been/],
    ['posted', { posted: '2026-04-01' }, /not before 2026-05-01/],
    ['posted', { arrived: '2026-05-09' }, /the day it was posted/],
    ['customer', { customer: '' }, /who ordered it/],
    ['email', { email: 'nobody' }, /e-mail address/],
    ['order', { order: '' }, /the order’s number/],
  ])('%s: %o', async (column, cells, expected) => {
    const summary = await take([row(cells as Record<string, string>), ROWS[2]!]);
    expect(summary.bad).toMatchObject([{ line: 2, column, expected: expect.stringMatching(expected) }]);
    expect((await order('shop/1044')).placed).toBe('2026-05-02');
    expect((await order('shop/1')).placed).toBeUndefined();
  });

  test('an order of which one row is bad gets it when the row is put right', async () => {
    const broken = [ROWS[0]!, ROWS[1]!.replace('set,1,18', 'set,one,18')];
    const summary = await take(broken);
    expect(summary.bad).toHaveLength(1);
    expect(summary.notes[0]).toMatch(/order 1043/);
    await take(ROWS);
    expect((await order('shop/1043')).lines).toHaveLength(2);
    expect((await order('shop/1043')).parcels.flatMap((sent) => sent.contents)).toHaveLength(2);
  });

  test('whatever stands in the cells, nothing is half recorded and nothing breaks', async () => {
    const cell = fc.oneof(
      fc.string({ maxLength: 20 }),
      fc.constantFrom('', '2026-05-01', 'GB', '1', '=1+1', '\u202e', '😀'),
    );
    const cells = fc.array(fc.array(cell, { minLength: 17, maxLength: 17 }), { minLength: 1, maxLength: 4 });
    await fc.assert(
      fc.asyncProperty(cells, async (rows) => {
        const before = await count();
        const summary = await take(
          rows.map((one) => one.map((it) => `"${it.replaceAll('"', '""')}"`).join(',')),
        );
        expect((await count()) - before).toBe(summary.recorded);
      }),
      { numRuns: 40 },
    );
  });
});

test('a forgotten buyer leaves the figures whole, and no name, address or note', async () => {
  await take(ROWS);
  const { buyer } = await order('shop/1043');
  await studio.tell(done('2026-05-08', 'order.note', { order: 'shop/1043', note: 'a left-handed reader' }));
  const before = await studio.host.report('shop-orders', 'fulfilment', {});
  await studio.host.forget(buyer!, {
    id: '01980000-0000-7000-8000-00000000fffe',
    who: 'ansa',
    device: 'bench',
  });
  expect((await studio.host.report('shop-orders', 'fulfilment', {})).rows).toEqual(before.rows);
  const shown = JSON.stringify(await studio.host.report('shop-orders', 'order', { order: 'shop/1043' }));
  const kept = Buffer.concat([
    await readFile(join(studio.dir, 'people.db')),
    await readFile(join(studio.dir, 'people.db-wal')).catch(() => Buffer.alloc(0)),
  ]).toString('latin1');
  for (const gone of ['Isolde', 'isolde@', 'Nowhere Lane', 'ZZ1 1ZZ', 'left-handed']) {
    expect(shown).not.toContain(gone);
    expect(kept).not.toContain(gone);
  }
  expect(await take(ROWS)).toMatchObject({ recorded: 0, bad: [] });
  await rm(join(studio.dir, 'mappings.json'), { force: true });
});
