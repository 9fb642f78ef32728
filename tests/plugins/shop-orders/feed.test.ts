import { delay, HttpResponse, http } from 'msw';
import { setupServer } from 'msw/node';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { readTracking } from '../../../plugins/shop-orders/feed/tracking.ts';
import type { Went } from '../../../server/contract/job.ts';
import { type JobsOptions, PluginJobs } from '../../../server/timed/jobs.ts';
import { SecretsHeld } from '../../../server/timed/secrets.ts';
import { ordered, packed, posted } from '../../support/shop.ts';
import { NOON, type StudioHost, studioHost } from '../../support/studio-host.ts';

const SHOP = 'https://shop.example.org/orders';
const TRACKING = 'https://post.example.org/seen';
const server = setupServer();
beforeAll(() => server.listen({ onUnhandledRequest: 'error' }));
afterAll(() => server.close());

let studio: StudioHost;
beforeEach(async () => {
  studio = await studioHost();
});
afterEach(async () => {
  server.resetHandlers();
  await studio.close();
});

/** A timer that is turned by hand. */
function byHand() {
  const waiting: { ms: number; work: () => void }[] = [];
  const after: JobsOptions['after'] = (ms, work) => {
    const one = { ms, work };
    waiting.push(one);
    return () => void waiting.splice(waiting.indexOf(one), 1);
  };
  return { waiting, after };
}

const secrets = {
  'shop-orders': { 'feed-address': SHOP, 'feed-key': 'marram-key', 'tracking-address': TRACKING },
};
type Given = ConstructorParameters<typeof SecretsHeld>[0];
const jobs = (after: JobsOptions['after'] = byHand().after, given: Given = secrets) =>
  new PluginJobs({
    host: studio.host,
    clock: () => NOON,
    after,
    secrets: new SecretsHeld(given),
    report: (error) => {
      throw error;
    },
  });
const run = (name: string, given: Given = secrets): Promise<Went> => {
  const plugin = studio.host.registry.plugin('shop-orders')!;
  return jobs(undefined, given).run(plugin, name, plugin.jobs![name]!);
};

const order = (number: number, more: object = {}) => ({
  number,
  placed: '2026-06-20',
  customer: 'Isolde Farthingdown',
  email: `buyer${number}@example.org`,
  country: 'GB',
  address: '1 Nowhere Lane|Neverby',
  lines: [{ item: 'House Lantern template', quantity: 1, price: '6.50', currency: 'GBP' }],
  ...more,
});
const answer = (orders: object[], next?: string) => HttpResponse.json({ orders, ...(next ? { next } : {}) });
const numbers = async () =>
  (await studio.host.report('shop-orders', 'today', {})).rows.map((row) => row.order);

describe('orders fetched from the shop', () => {
  test('page by page, with the key', async () => {
    const keys: (string | null)[] = [];
    server.use(
      http.get(SHOP, ({ request }) => {
        keys.push(request.headers.get('authorization'));
        const page = new URL(request.url).searchParams.get('page') ?? '1';
        return page === '1' ? answer([order(1), order(2)], '?page=2') : answer([order(3)]);
      }),
    );
    expect(await run('fetch-orders')).toEqual({ sentence: '3 new orders, none that are different now.' });
    expect(keys).toEqual(['Bearer marram-key', 'Bearer marram-key']);
    expect(await numbers()).toEqual(['1', '2', '3']);
  });

  test('once only, however often and in whatever order they come', async () => {
    server.use(http.get(SHOP, () => answer([order(1), order(2)])));
    await run('fetch-orders');
    const { count } = await studio.host.log.head();
    server.use(http.get(SHOP, () => answer([order(2), order(1), order(2)], SHOP)));
    expect(await run('fetch-orders')).toMatchObject({
      sentence: 'No new orders, none that are different now.',
    });
    expect((await studio.host.log.head()).count).toBe(count);
  });

  test('that are different now wait until I have looked', async () => {
    server.use(http.get(SHOP, () => answer([order(1)])));
    await run('fetch-orders');
    const three = [{ item: 'House Lantern template', quantity: 3, price: '6.50', currency: 'GBP' }];
    server.use(http.get(SHOP, () => answer([order(1, { lines: three })])));
    expect(await run('fetch-orders')).toMatchObject({ sentence: 'No new orders, 1 that is different now.' });
    expect(await run('fetch-orders')).toMatchObject({
      sentence: 'No new orders, none that are different now.',
    });
    const asked = await studio.host.report('shop-orders', 'today', {});
    expect(asked.rows[0]).toMatchObject({
      quantity: 1,
      state: 'ask',
      why: /the shop says it is different now/,
    });
    await studio.ask('order.accept-change', { order: 'shop/1' });
    expect((await studio.host.report('shop-orders', 'today', {})).rows[0]).toMatchObject({ quantity: 3 });
    server.use(http.get(SHOP, () => answer([order(1, { lines: three, cancelled: true })])));
    expect(await run('fetch-orders')).toMatchObject({ sentence: 'No new orders, 1 that is different now.' });
    await studio.ask('order.accept-change', { order: 'shop/1' });
    expect(await numbers()).toEqual([]);
  });

  test('that I struck out stay so, and it says how many', async () => {
    server.use(http.get(SHOP, () => answer([order(1), order(2)])));
    await run('fetch-orders');
    const { entries } = (await studio.host.log.streams(['order:shop/1'])).get('order:shop/1')!;
    await studio.ask('entry.strike', { seqs: entries.map(({ seq }) => seq), why: 'a trial' });
    expect(await run('fetch-orders')).toEqual({
      sentence: 'No new orders, none that are different now. 1 was struck out here and is left out.',
    });
    expect(await numbers()).toEqual(['2']);
  });

  test('of which some are wrong: the others are taken, and it says what is wrong', async () => {
    server.use(http.get(SHOP, () => answer([order(1, { country: 'XX' }), order(2)])));
    expect(await run('fetch-orders')).toMatchObject({
      failed: true,
      sentence: expect.stringMatching(/1 new order.*country “XX”: expected a country’s two letters/),
    });
    expect(await numbers()).toEqual(['2']);
  });

  test.each([
    [
      'asks to wait',
      () => new HttpResponse(null, { status: 429, headers: { 'retry-after': '1200' } }),
      /asks to wait/,
      1200,
    ],
    ['has a fault', () => new HttpResponse('oops', { status: 500 }), /fault of its own \(500\)/, 300],
    ['gives no answer', () => HttpResponse.error(), /no connection/, 300],
    ['is cut short', () => new HttpResponse('{"orders": [{"num'), /no JSON/, 300],
    [
      'sends something else',
      () => HttpResponse.json({ items: [] }),
      /not as it should be: orders/,
      undefined,
    ],
    [
      'wants another key',
      () => new HttpResponse(null, { status: 401 }),
      /does not accept the key/,
      undefined,
    ],
    [
      'leads elsewhere',
      () => answer([], 'https://elsewhere.example.org/orders'),
      /another address than its own/,
      undefined,
    ],
  ])(
    'when the shop %s, what was taken before stays, and it is tried again',
    async (_, reply, sentence, again) => {
      server.use(
        http.get(SHOP, ({ request }) =>
          new URL(request.url).search === ''
            ? answer([order(1)], '?page=2')
            : (reply() as HttpResponse<null>),
        ),
      );
      const went = await run('fetch-orders');
      expect(went).toMatchObject({ failed: true, sentence: expect.stringMatching(sentence) });
      expect(went.again).toBe(again);
      expect(await numbers()).toEqual(['1']);
    },
  );

  test('only over a safe connection, and not at all while no shop is set up', async () => {
    const open = { 'shop-orders': { 'feed-address': 'http://shop.example.org/orders' } };
    expect(await run('fetch-orders', open)).toMatchObject({
      failed: true,
      sentence: /does not begin with https/,
    });
    expect(await run('fetch-orders', {})).toEqual({ sentence: 'No shop is set up to be asked.' });
  });

  test('on a timer: sooner or later as the shop asks, otherwise every quarter of an hour', async () => {
    const { waiting, after } = byHand();
    const kept = jobs(after);
    server.use(
      http.get(SHOP, () => new HttpResponse(null, { status: 429, headers: { 'retry-after': '3600' } })),
    );
    kept.start();
    const first = waiting.length;
    expect(first).toBeGreaterThan(2);
    waiting[0]!.work();
    await expect.poll(() => waiting.length).toBe(first + 1);
    expect(waiting.at(-1)!.ms).toBe(3_600_000);
    server.use(http.get(SHOP, () => answer([order(1)])));
    waiting.at(-1)!.work();
    await expect.poll(() => waiting.length).toBe(first + 2);
    expect(waiting.at(-1)!.ms).toBe(15 * 60_000);
    expect(kept.book.of('shop-orders', 'fetch-orders')).toMatchObject({
      last: { at: NOON.toISOString(), sentence: /1 new order/ },
      failures: 0,
    });
    await kept.stop();
  });

  test('and when the shop takes too long, it is left and asked again in five minutes', async () => {
    server.use(
      http.get(SHOP, async () => {
        await delay('infinite');
        return answer([]);
      }),
    );
    const { waiting, after } = byHand();
    const kept = jobs(after);
    const plugin = studio.host.registry.plugin('shop-orders')!;
    const went = kept.run(plugin, 'fetch-orders', plugin.jobs!['fetch-orders']!);
    await expect.poll(() => waiting.map(({ ms }) => ms)).toEqual([20_000]);
    waiting[0]!.work();
    expect(await went).toMatchObject({
      failed: true,
      again: 300,
      sentence: /gave no answer: it took too long/,
    });
    expect(waiting).toEqual([]);
  });

  test('and says nothing of a buyer in how it went, which is kept outside the erasable store', async () => {
    server.use(
      http.get(SHOP, () =>
        answer([order(1, { customer: 'M'.repeat(500) }), order(2, { country: 'Erehwon' })]),
      ),
    );
    const { sentence } = await run('fetch-orders');
    expect(sentence).toMatch(/customer: expected/);
    expect(sentence).not.toMatch(/MMM/);
    expect(sentence).toMatch(/country “Erehwon”: expected/);
  });

  test('less often, or not by itself at all, as I choose; now, when I say so', async () => {
    const { waiting, after } = byHand();
    const kept = jobs(after);
    const plugin = studio.host.registry.plugin('shop-orders')!;
    const job = plugin.jobs!['fetch-orders']!;
    server.use(http.get(SHOP, () => answer([order(1)])));
    kept.start();
    const others = waiting.length - 1;
    kept.set(plugin, 'fetch-orders', job, { every: 240 });
    expect(waiting).toHaveLength(others + 1);
    expect(waiting.at(-1)!.ms).toBe(240 * 60_000);
    kept.set(plugin, 'fetch-orders', job, { off: true });
    expect(waiting).toHaveLength(others);
    await kept.run(plugin, 'fetch-orders', job);
    expect(await numbers()).toEqual(['1']);
    expect(waiting).toHaveLength(others);
    kept.set(plugin, 'fetch-orders', job, { off: false });
    expect(waiting.at(-1)!.ms).toBe(240 * 60_000);
    await kept.stop();
  });
});

describe('what the post says', () => {
  test('is read from CSV or JSON, and what cannot be right is counted', () => {
    const csv =
      'Number,Date,Status\nRB123456785GB,2026-06-20,Delivered\nRB123456786GB,2026-06-20,Delivered\nx,y,z\n';
    expect(readTracking(csv)).toEqual({
      tracked: [{ number: 'RB123456785GB', on: '2026-06-20', said: 'Delivered', arrived: true }],
      unread: 2,
    });
    expect(
      readTracking('[{"number":"RB123456785GB","date":"2026-06-20","status":"Sorted"}]').tracked,
    ).toMatchObject([{ said: 'Sorted', arrived: false }]);
  });

  test('is noted on its parcel once, and nobody’s else', async () => {
    await studio.tell(
      ordered('1', '2026-06-01'),
      packed('p1', ['shop/1'], '2026-06-02', { anyway: true }),
      posted('p1', '2026-06-02', { number: 'RB123456785GB' }),
    );
    const said =
      'number,date,status\nRB123456785GB,2026-06-03,Sorted\nRB123456785GB,2026-06-05,Delivered\nLZ473124829GB,2026-06-05,Delivered\n';
    server.use(http.get(TRACKING, () => HttpResponse.text(said)));
    expect(await run('fetch-tracking')).toMatchObject({ sentence: /2 parcels were heard of/ });
    const { count } = await studio.host.log.head();
    await run('fetch-tracking');
    expect((await studio.host.log.head()).count).toBe(count);
    const [row] = (await studio.host.report('shop-orders', 'parcels', {})).rows;
    expect(row).toMatchObject({ state: 'arrived', ended: '2026-06-05' });
  });

  test('and what nobody says anything of is taken to have arrived after its time, and marked so', async () => {
    await studio.tell(
      ordered('1', '2026-04-01'),
      packed('p1', ['shop/1'], '2026-04-02', { anyway: true }),
      posted('p1', '2026-04-02'),
    );
    expect(await run('assume-arrived')).toMatchObject({
      sentence: /1 parcel is taken to have come after 60 days/,
    });
    const [row] = (await studio.host.report('shop-orders', 'parcels', {})).rows;
    expect(row).toMatchObject({ state: 'assumed' });
  });
});
