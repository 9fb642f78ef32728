import { afterEach, beforeEach, expect, test } from 'vitest';
import { waitingRow } from '../../../server/contract/telling.ts';
import { gather } from '../../../server/http/tellings.ts';
import { done } from '../../support/given.ts';
import { ordered, packed, posted, stocked } from '../../support/shop.ts';
import { type StudioHost, studioHost } from '../../support/studio-host.ts';
import { materials } from '../../support/yard.ts';

let studio: StudioHost;
beforeEach(async () => {
  studio = await studioHost();
  await studio.tell(...materials, ...stocked);
});
afterEach(() => studio.close());

const lines = async (does?: string) => {
  const { told, failed } = await gather(studio.host, 'waiting');
  expect(failed).toEqual([]);
  const rows = told.find(({ plugin }) => plugin === 'shop-orders')!.rows;
  return rows.filter((row) => does === undefined || row.does === does);
};

test('Today lists the orders to pack by their promised day, each leading to where it is packed', async () => {
  await studio.tell(
    ordered('2', '2026-06-28', { promise: '2026-07-02', country: 'JP' }),
    ordered('1', '2026-06-28', { promise: '2026-07-01' }),
  );
  expect(await lines()).toMatchObject([
    {
      does: 'pack-orders',
      what: 'Order 1',
      where: /^1 × House Lantern template, to/,
      due: '2026-07-01',
      to: '/post/orders/shop/1',
    },
    { does: 'pack-orders', what: 'Order 2', where: /to Japan/, due: '2026-07-02', to: '/post/orders/shop/2' },
  ]);
});

test('what must be settled first, what is short of stock, and what is packed and not posted', async () => {
  await studio.tell(
    ordered('1', '2026-06-28', { address: undefined }),
    ordered('2', '2026-06-28', { lines: [{ item: 'Hedgerow stamp set', quantity: 5 }] }),
    ordered('3', '2026-06-28'),
    packed('p3', ['shop/3'], '2026-06-29'),
  );
  expect(await lines('settle')).toMatchObject([
    { what: 'Order 1', where: /no address/, to: '/post/orders/shop/1' },
  ]);
  expect(await lines('make-for-orders')).toMatchObject([
    { what: '2 Hedgerow stamp set', where: 'for 1 order', to: '/post/items/hedgerow-stamp-set' },
  ]);
  expect(await lines('post-parcels')).toMatchObject([{ what: '1 parcel is packed', to: '/post/posting' }]);
});

/** Twenty orders at home that came within two weeks, to hold a late one against. */
function twentyArrived() {
  const arrived = Array.from({ length: 20 }, (_, n) => String(100 + n));
  return [
    ...arrived.map((n) => ordered(n, '2026-04-01')),
    ...arrived.map((n) => packed(`p${n}`, [`shop/${n}`], '2026-04-02', { anyway: true })),
    ...arrived.map((n) => posted(`p${n}`, '2026-04-02')),
    ...arrived.map((n, at) =>
      done(`2026-04-${String(4 + (at % 10)).padStart(2, '0')}`, 'parcel.arrive', { parcel: `p${n}` }),
    ),
  ];
}

test('a parcel later than 95 of 100 of its like comes first: ask; and two weeks after asking, send again', async () => {
  await studio.tell(
    ...twentyArrived(),
    ordered('1', '2026-05-10'),
    packed('late', ['shop/1'], '2026-05-11', { anyway: true }),
    posted('late', '2026-05-11'),
    ordered('2', '2026-06-27'),
    packed('young', ['shop/2'], '2026-06-28', { anyway: true }),
    posted('young', '2026-06-28'),
  );
  expect(await lines('ask-buyer')).toMatchObject([
    {
      what: 'Order 1',
      where: /50 days on the way to .*longer than all of its like: ask the buyer/,
      to: '/post/parcels/late',
    },
  ]);
  expect((await lines())[0]).toMatchObject({ does: 'ask-buyer' });
  const { more } = await studio.host.report('shop-orders', 'parcel', { parcel: 'late' });
  expect(more).toMatchObject({ late: { days: 50, advice: 'ask', asked: null } });
  const tell = (day: string) =>
    studio.tell(done(day, 'order.tell', { order: 'shop/1', message: 'has-it-come', parcel: 'late' }));
  await tell('2026-06-10');
  expect(await lines('ask-buyer')).toMatchObject([{ where: /send it again, pay back, or wait/ }]);
  await tell('2026-06-25');
  expect(await lines('ask-buyer')).toEqual([]);
  expect((await studio.host.report('shop-orders', 'waiting', {})).more).toEqual({ unlisted: {} });
  await studio.tell(done('2026-06-29', 'parcel.arrive', { parcel: 'late' }));
  expect(await lines('ask-buyer')).toEqual([]);
});

test('a late parcel that is left to come until a day is not put forward before it', async () => {
  await studio.tell(
    ...twentyArrived(),
    ordered('1', '2026-05-10'),
    packed('late', ['shop/1'], '2026-05-11', { anyway: true }),
    posted('late', '2026-05-11'),
  );
  expect(await lines('ask-buyer')).toHaveLength(1);
  await studio.tell(done('2026-06-20', 'parcel.give-time', { parcel: 'late', until: '2026-06-30' }));
  expect(await lines('ask-buyer')).toHaveLength(1);
  await studio.tell(done('2026-06-29', 'parcel.give-time', { parcel: 'late', until: '2026-07-14' }));
  expect(await lines('ask-buyer')).toEqual([]);
  const { more } = await studio.host.report('shop-orders', 'parcel', { parcel: 'late' });
  expect(more).toMatchObject({ late: { advice: 'wait', given: '2026-07-14' } });
  const { rows } = await studio.host.report('shop-orders', 'in-the-post', {});
  expect(rows[0]).toMatchObject({ order: '1', advice: 'wait', given: '2026-07-14' });
});

test('many lines are cut short, and it says how many more there are', async () => {
  await studio.tell(...Array.from({ length: 11 }, (_, n) => ordered(String(n), '2026-06-28')));
  const { rows, more } = await studio.host.report('shop-orders', 'waiting', {});
  expect(rows.filter(({ does }) => does === 'pack-orders')).toHaveLength(8);
  expect(more).toMatchObject({ unlisted: { 'pack-orders': 3 } });
  expect(waitingRow.array().safeParse(rows).success).toBe(true);
});

test('the calendar has the promised days of what is not posted yet', async () => {
  await studio.tell(
    ordered('1', '2026-06-01', { promise: '2026-06-05' }),
    packed('p1', ['shop/1'], '2026-06-02'),
    posted('p1', '2026-06-02'),
    ordered('2', '2026-06-28', { promise: '2026-07-02', country: 'JP' }),
  );
  const { told } = await gather(studio.host, 'dates');
  expect(told.find(({ plugin }) => plugin === 'shop-orders')!.rows).toMatchObject([
    {
      uid: 'order-shop/2',
      what: 'Post order 2',
      from: '2026-07-02',
      where: 'Japan',
      to: '/post/orders/shop/2',
    },
  ]);
});
