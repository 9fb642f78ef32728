import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { HttpResponse, http } from 'msw';
import { setupServer } from 'msw/node';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { buildApp } from '../../server/http/app.ts';
import { Jobs } from '../../server/http/jobs.ts';
import { BookInFolder } from '../../server/timed/book.ts';
import { PluginJobs } from '../../server/timed/jobs.ts';
import { SecretsFile } from '../../server/timed/secrets.ts';
import { NOON, type StudioHost, studioHost } from '../support/studio-host.ts';

const SHOP = 'https://shop.example.org/orders';
const FETCH = '/api/timed/shop-orders/fetch-orders';
const server = setupServer();
beforeAll(() => server.listen({ onUnhandledRequest: 'error' }));
afterAll(() => server.close());

let studio: StudioHost;
let works: Jobs;
beforeEach(async () => {
  studio = await studioHost();
  works = new Jobs(
    () => 'work-1',
    () => {},
  );
});
afterEach(async () => {
  server.resetHandlers();
  await studio.close();
});

/** As after a start over the same folder. */
function served() {
  const timed = new PluginJobs({
    host: studio.host,
    clock: () => NOON,
    after: () => () => {},
    secrets: new SecretsFile(studio.dir),
    book: new BookInFolder(studio.dir),
    report: (error) => {
      throw error;
    },
  });
  const app = buildApp({
    host: studio.host,
    keeping: {
      instance: 'test',
      version: 'test',
      folder: studio.dir,
      uploads: { folder: studio.dir, limit: 1 },
      imports: {},
      timed,
      backup: () => Promise.reject(new Error('no backups here')),
    },
    jobs: works,
    port: () => 4280,
  });
  const at = (path: string) => `http://127.0.0.1:4280${path}`;
  const ask = async (path: string) => (await app.request(at(path))).json();
  const post = (path: string, body: object = {}) =>
    app.request(at(path), {
      method: 'POST',
      body: JSON.stringify(body),
      headers: { 'content-type': 'application/json' },
    });
  const fetching = async () =>
    ((await ask('/api/timed')) as { timed: { job: string }[] }).timed.find(
      ({ job }) => job === 'fetch-orders',
    );
  return { ask, post, fetching };
}

const given = { 'feed-address': `${SHOP}?token=cuttlefish`, 'feed-key': 'marram-key' };

describe('fetching orders from my shop', () => {
  test('is set up with an address and a key; the key is told to nobody again', async () => {
    const { post, fetching } = served();
    expect(await fetching()).toMatchObject({
      on: true,
      every: 15,
      last: null,
      takes: [{ given: false }, { given: false }],
    });
    expect((await post(FETCH, { given, every: 60 })).status).toBe(200);
    const now = await fetching();
    expect(now).toMatchObject({
      every: 60,
      takes: [
        { name: 'feed-address', given: true, shown: `${SHOP}?…` },
        { name: 'feed-key', given: true, shown: null },
      ],
    });
    expect(JSON.stringify(now)).not.toMatch(/marram-key|cuttlefish/);
  });

  test('keeps both in a file that is mine only, and never in the log', async () => {
    const { post } = served();
    await post(FETCH, { given });
    const path = join(studio.dir, 'secrets.json');
    expect(statSync(path).mode & 0o077).toBe(0);
    expect(readFileSync(path, 'utf8')).toContain('marram-key');
    expect((await studio.host.log.head()).count).toBe(0);
    await post(FETCH, { given: { 'feed-key': null } });
    expect(readFileSync(path, 'utf8')).not.toContain('marram-key');
    expect(readFileSync(path, 'utf8')).toContain(SHOP);
  });

  test('is done now when I say so, and says when and how many; that is known after a new start too', async () => {
    const { post, fetching, ask } = served();
    await post(FETCH, { given });
    server.use(
      http.get(SHOP, () =>
        HttpResponse.json({
          orders: [
            {
              number: '1',
              placed: '2026-06-20',
              customer: 'Isolde Farthingdown',
              address: '1 Nowhere Lane|Neverby',
              country: 'GB',
              lines: [{ item: 'House Lantern template', quantity: 1, price: '6.50', currency: 'GBP' }],
            },
          ],
        }),
      ),
    );
    expect((await post(`${FETCH}/run`)).status).toBe(202);
    await works.idle();
    expect(await ask('/api/jobs/work-1')).toMatchObject({
      state: 'done',
      result: { sentence: /1 new order/ },
    });
    const told = { last: { at: NOON.toISOString(), sentence: /1 new order/, failed: false }, failures: 0 };
    expect(await fetching()).toMatchObject(told);
    expect(await served().fetching()).toMatchObject(told);
  });

  test('stands on Today when it has failed three times, and no more when it went well', async () => {
    const { post, ask, fetching } = served();
    await post(FETCH, { given });
    const failures = async () =>
      ((await ask('/api/waiting')) as { told: { plugin: string; rows: object[] }[] }).told.find(
        ({ plugin }) => plugin === 'timed',
      )?.rows;
    server.use(http.get(SHOP, () => new HttpResponse(null, { status: 401 })));
    const once = async () => {
      await post(`${FETCH}/run`);
      await works.idle();
    };
    await once();
    await once();
    expect(await failures()).toBeUndefined();
    await once();
    expect(await failures()).toMatchObject([
      {
        what: 'Fetch orders from the shop',
        where: /does not accept the key/,
        since: NOON.toISOString(),
        to: '/settings/by-itself',
      },
    ]);
    await post(FETCH, { on: false });
    expect(await failures()).toBeUndefined();
    await post(FETCH, { on: true });
    server.use(http.get(SHOP, () => HttpResponse.json({ orders: [] })));
    await once();
    expect(await failures()).toBeUndefined();
    expect(await fetching()).toMatchObject({ failures: 0 });
  });

  test.each([
    [{ given: { 'feed-address': 'http://shop.example.org' } }, 400, /must begin with https/],
    [{ given: { 'feed-address': 'shop' } }, 400, /must begin with https/],
    [{ given: { password: 'x' } }, 400, /takes no password/],
    [{ every: 1 }, 400, /5/],
  ])('%j is not taken', async (body, status, sentence) => {
    const answer = await served().post(FETCH, body);
    expect(answer.status).toBe(status);
    expect(JSON.stringify(await answer.json())).toMatch(sentence);
  });

  test('that nobody does is not found', async () => {
    expect((await served().post('/api/timed/shop-orders/fetch-clouds', {})).status).toBe(404);
  });
});
