/** Links to files that buyers fetch, over the real routes into a real studio. */
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { signedPath } from '../../server/handouts/link.ts';
import { buildApp } from '../../server/http/app.ts';
import { Jobs } from '../../server/http/jobs.ts';
import { A_PDF_SHA256, aPdf } from '../support/a-pdf.ts';
import { done } from '../support/given.ts';
import { lookAt } from '../support/looked-at.ts';
import { ordered } from '../support/shop.ts';
import { NOON, type StudioHost, studioHost } from '../support/studio-host.ts';

const PORT = 4280;
const FILE = 'house-lantern-file';
let folder: string;
let studio: StudioHost;
let app: ReturnType<typeof buildApp>;
let now: Date;
let failures: Error[];

const at = (path: string) => `http://127.0.0.1:${PORT}${path}`;
const get = (path: string, init: RequestInit = {}) => app.request(at(path), init);
const post = (path: string, body: unknown) =>
  app.request(at(path), {
    method: 'POST',
    body: JSON.stringify(body),
    headers: { 'content-type': 'application/json' },
  });
/** As the button of the page does. */
const fetched = (path: string, paper?: string) =>
  app.request(at(path), {
    method: 'POST',
    body: new URLSearchParams(paper === undefined ? {} : { paper }),
    headers: { 'content-type': 'application/x-www-form-urlencoded' },
  });
const pathOf = async (download = 'd1'): Promise<string> =>
  (await (await get(`/api/handouts/shop-orders/download/${download}`)).json()).path;
const words = async (answer: Response) =>
  (await answer.text()).replaceAll(/<[^>]*>/g, ' ').replaceAll(/\s+/g, ' ');
const handedOut = async () =>
  (await studio.host.log.read(0, 1_000)).filter(({ name }) => name === 'download.handed-out');

const grant = (more: object = {}, on = '2026-06-28') =>
  done(on, 'download.grant', {
    download: 'd1',
    order: 'shop/6',
    line: '1',
    until: '2026-07-10',
    most: 2,
    ...more,
  });

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'wareboard-handouts-'));
  now = NOON;
  failures = [];
  studio = await studioHost({ clock: () => now });
  await studio.tell(
    done('2026-06-01', 'studio.set', {
      studio: 'Hollin Yard Pottery',
      zone: 'Europe/London',
      currency: 'GBP',
      yearStart: '01-01',
    }),
    done('2026-06-01', 'item.add', {
      name: 'House Lantern file',
      kind: 'download',
      licence: 'For pots that you make yourself.',
    }),
    done('2026-06-01', 'item.give-file', { item: FILE, file: A_PDF_SHA256, called: 'lantern.pdf' }),
    ordered('6', '2026-06-27', { lines: [{ item: 'House Lantern file', quantity: 1 }] }),
  );
  app = buildApp({
    host: studio.host,
    keeping: {
      instance: 'test',
      version: 'test',
      folder,
      uploads: { folder, limit: 1 },
      imports: {},
      clock: () => now,
      backup: () => Promise.reject(new Error('no backups here')),
    },
    jobs: new Jobs(
      () => '1',
      () => {},
    ),
    port: () => PORT,
    report: (error) => failures.push(error),
  });
});
afterEach(async () => {
  await studio.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('a link', () => {
  test('shows a page with a button; looking, a HEAD and a look ahead use nothing up', async () => {
    await studio.tell(grant());
    const path = await pathOf();
    for (const method of ['GET', 'HEAD', 'GET', 'HEAD']) {
      const answer = await get(path, { method });
      expect(answer.status).toBe(200);
      expect(answer.headers.get('cache-control')).toBe('no-store');
      expect(answer.headers.get('x-robots-tag')).toBe('noindex');
      expect(answer.headers.get('referrer-policy')).toBe('no-referrer');
      expect(answer.headers.get('content-security-policy')).not.toContain('unsafe-inline');
      const page = await words(answer);
      if (method === 'HEAD') expect(page).toBe('');
      else
        expect(page).toMatch(
          /Hollin Yard Pottery.*House Lantern file.*Order 6.*twice more, until 10 July 2026/,
        );
    }
    expect(await handedOut()).toEqual([]);
  });

  test('hands the PDF out with the order and the licence on it, as often as it may and then no more', async () => {
    await studio.tell(grant());
    const path = await pathOf();
    for (const time of [1, 2]) {
      const answer = await fetched(path);
      expect(answer.status).toBe(200);
      expect(answer.headers.get('content-type')).toBe('application/pdf');
      expect(answer.headers.get('content-disposition')).toBe(
        "attachment; filename*=UTF-8''House%20Lantern%20file%206.pdf",
      );
      const pdf = lookAt(new Uint8Array(await answer.arrayBuffer()));
      expect(pdf.mended).toBe(false);
      expect(pdf.text(0)).toContain('House Lantern');
      expect(pdf.text(0)).toContain('Hollin Yard Pottery · order 6 · For pots that you make yourself.');
      expect(await handedOut()).toHaveLength(time);
    }
    const third = await fetched(path);
    expect(third.status).toBe(410);
    expect(await words(third)).toMatch(/used twice, which is as often as it could be/);
    expect((await get(path)).status).toBe(410);
    expect(await handedOut()).toHaveLength(2);
    expect((await handedOut())[0]).toMatchObject({
      who: 'buyer',
      device: 'link',
      streams: ['download:d1', 'order:shop/6'],
    });
  });

  test('of which two fetch the last one at the same moment gives it to one', async () => {
    await studio.tell(grant({ most: 1 }));
    const path = await pathOf();
    const both = await Promise.all([fetched(path), fetched(path)]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 410]);
    expect(await handedOut()).toHaveLength(1);
  });

  test('holds on its last day in the studio’s zone, and not on the day after', async () => {
    await studio.tell(grant());
    const path = await pathOf();
    now = new Date('2026-07-10T22:59:00Z');
    expect((await get(path)).status).toBe(200);
    now = new Date('2026-07-10T23:01:00Z');
    expect((await get(path)).status).toBe(410);
    expect(await words(await fetched(path))).toMatch(/could be used until 10 July 2026/);
  });

  test('that was taken back, or whose order was cancelled, says so', async () => {
    await studio.tell(grant(), grant({ download: 'd2' }));
    const [first, second] = [await pathOf('d1'), await pathOf('d2')];
    await studio.tell(done('2026-06-29', 'download.withdraw', { download: 'd1' }));
    expect((await fetched(first)).status).toBe(410);
    expect(await words(await get(first))).toMatch(/taken back/);
    expect((await get(second)).status).toBe(200);
    await studio.tell(done('2026-06-29', 'order.cancel', { order: 'shop/6' }));
    expect(await words(await fetched(second))).toMatch(/cancelled/);
  });

  test('that was altered in any part, or never made here, opens nothing', async () => {
    await studio.tell(grant(), grant({ download: 'd2' }));
    const path = await pathOf();
    const parts = path.split('/');
    const with_ = (at: number, part: string) => parts.with(at, part).join('/');
    const swapped = (text: string) => `${text.slice(0, -2)}${text.endsWith('A') ? 'B' : 'A'}${text.at(-1)}`;
    const altered = [
      with_(3, 'other'),
      with_(4, 'd2'),
      with_(5, '2027-07-10'),
      with_(6, '100'),
      with_(7, swapped(parts[7]!)),
      with_(7, parts[7]!.slice(0, -1)),
      with_(7, `${parts[7]}A`),
      with_(7, '='),
      signedPath('another key', {
        plugin: 'shop-orders',
        handout: 'download',
        key: 'd1',
        until: '2026-07-10',
        most: '2',
      }),
    ];
    for (const wrong of altered) {
      expect((await get(wrong)).status, wrong).toBe(403);
      const answer = await fetched(wrong);
      expect(answer.status, wrong).toBe(403);
      expect(await words(answer)).toMatch(/not one that was made here/);
    }
    expect(await handedOut()).toEqual([]);
    expect((await get('/api/handouts/shop-orders/download/d9')).status).toBe(404);
    expect((await get('/api/handouts/shop-orders/constructor/d1')).status).toBe(404);
  });

  test('is shut with all others by a new key, and the key is nowhere but in a file of its owner', async () => {
    await studio.tell(grant());
    const path = await pathOf();
    const { key } = JSON.parse(readFileSync(join(folder, 'links.json'), 'utf8'));
    expect(statSync(join(folder, 'links.json')).mode & 0o077).toBe(0);
    expect(JSON.stringify(await studio.host.log.read(0, 1_000))).not.toContain(key);
    expect((await post('/api/handouts/new-key', {})).status).toBe(200);
    expect((await get(path)).status).toBe(403);
    expect((await get(await pathOf())).status).toBe(200);
  });

  test('to a file that is not here counts nothing', async () => {
    await studio.tell(grant());
    const path = await pathOf();
    rmSync(studio.host.documents.files.path(A_PDF_SHA256));
    const answer = await fetched(path);
    expect(answer.status).toBe(503);
    expect(await words(answer)).toMatch(/not here at present. Nothing was counted/);
    expect(await handedOut()).toEqual([]);
  });
});

describe('a file that comes from a template', () => {
  const jug = { form: 'polygon', sides: 6, bottomSide: 40, topSide: 30, height: 90 };
  const paper = { plugin: 'template-sheets', paper: 'kept', input: { template: 'faceted-jug' } };

  beforeEach(() =>
    studio
      .tell(
        done('2026-06-02', 'template.draw', {
          name: 'Faceted Jug',
          spec: jug,
          licence: 'For your own pots.',
        }),
        done('2026-06-03', 'item.change', { item: FILE, paper }),
        grant(),
      )
      .then(() => {}),
  );

  test('is drawn on the paper that the buyer chooses, with the order and the licence, and the template knows', async () => {
    const path = await pathOf();
    expect(await words(await get(path))).toMatch(/Paper that you print on A4 A3 Letter Tabloid roll 610/);
    const sizes = [
      ['Letter', 215.9, 279.4],
      ['', 210, 297],
    ] as const;
    for (const [size, width, height] of sizes) {
      const answer = await fetched(path, size || undefined);
      const pdf = lookAt(new Uint8Array(await answer.arrayBuffer()));
      expect(pdf.size(0).width).toBeCloseTo(width, 1);
      expect(pdf.size(0).height).toBeCloseTo(height, 1);
      const all = Array.from({ length: pdf.pages }, (_, page) => pdf.text(page)).join('\n');
      expect(all).toMatch(/6/);
      expect(all).toContain('For your own pots.');
    }
    expect((await handedOut()).map(({ data }) => (data as { paper: string }).paper)).toEqual([
      'Letter',
      'A4',
    ]);
    const { more } = await studio.host.report('template-sheets', 'template', { template: 'faceted-jug' });
    expect(more).toMatchObject({ downloads: 2 });
  });

  test('can be looked at by the maker on any of its papers, and is counted only when it went out', async () => {
    const file = (size: string) => get(`/api/handouts/shop-orders/download/d1/file?paper=${size}`);
    const answer = await file('Tabloid');
    expect(lookAt(new Uint8Array(await answer.arrayBuffer())).size(0).width).toBeCloseTo(279.4, 1);
    expect((await file('Foolscap')).status).toBe(400);
    expect(await handedOut()).toEqual([]);
  });

  test('is among what any plugin may name', async () => {
    const { papers } = await (await get('/api/handouts/papers')).json();
    expect(papers).toEqual([
      {
        ...paper,
        title: 'Faceted Jug',
        to: expect.stringContaining('/templates'),
        sizes: expect.arrayContaining(['A4', 'roll 610']),
      },
    ]);
  });

  test('that is there no more counts nothing and says so', async () => {
    const path = await pathOf();
    await studio.tell(
      done('2026-06-29', 'item.change', { item: FILE, paper: { ...paper, input: { template: 'gone' } } }),
    );
    const answer = await fetched(path, 'A4');
    expect(answer.status).toBe(503);
    expect(await words(answer)).toMatch(/There is no template gone. Nothing was counted/);
    expect(failures).toHaveLength(1);
    expect(await handedOut()).toEqual([]);
  });
});

describe('how the world reaches it', () => {
  const outside = 'https://files.example.org';
  const from = (path: string, host: string) => app.request(at(path), { headers: { host } });

  test('is nowhere until the maker says so, and then links alone are answered there', async () => {
    await studio.tell(grant());
    const path = await pathOf();
    expect(await (await get('/api/handouts')).json()).toEqual({ outside: null, network: [] });
    expect((await from(path, 'files.example.org')).status).toBe(421);
    expect(await (await post('/api/handouts/address', { address: `${outside}/` })).json()).toMatchObject({
      outside,
    });
    expect((await from(path, 'files.example.org')).status).toBe(200);
    expect((await from('/fetch/look.css', 'files.example.org')).status).toBe(200);
    for (const other of ['/', '/api/handouts', '/api/log', '/calendar/x.ics', '/fetching'])
      expect((await from(other, 'files.example.org')).status, other).toBe(421);
    expect((await from(path, 'files.example.org.evil.example')).status).toBe(421);
    await post('/api/handouts/address', { address: null });
    expect((await from(path, 'files.example.org')).status).toBe(421);
  });

  test.each([
    'http://files.example.org',
    'https://files.example.org/yard',
    'https://a:b@files.example.org',
    'files',
    '',
  ])('is not %j', async (address) => {
    const answer = await post('/api/handouts/address', { address });
    expect(answer.status).toBe(400);
    expect((await answer.json()).detail).toMatch(/begins with https/);
  });
});

describe('a document that comes in', () => {
  const put = (bytes: Uint8Array<ArrayBuffer>, sha256: string) =>
    app.request(at(`/api/files/${sha256}`), {
      method: 'PUT',
      body: bytes,
      headers: { 'content-type': 'application/pdf' },
    });
  const named = async (bytes: Uint8Array<ArrayBuffer>) =>
    Buffer.from(await crypto.subtle.digest('SHA-256', bytes)).toString('hex');

  test('is kept as it was sent and given back the same, to be looked at only', async () => {
    const bytes = aPdf('Wall Pocket');
    const sha256 = await named(bytes);
    expect(await (await put(bytes, sha256)).json()).toEqual({
      sha256,
      type: 'application/pdf',
      bytes: bytes.length,
      pages: 1,
    });
    const back = await get(`/api/files/${sha256}`);
    expect(back.headers.get('content-type')).toBe('application/pdf');
    expect(back.headers.get('content-security-policy')).toContain('sandbox');
    expect(new Uint8Array(await back.arrayBuffer())).toEqual(bytes);
  });

  const broken = new TextDecoder().decode(aPdf()).slice(0, 120);
  test.each([
    ['a picture called .pdf', 'ÿØÿà JFIF', /not a PDF, whatever its name says/],
    ['a PDF that breaks off', broken, /damaged or breaks off/],
    ['nothing', ' ', /not a PDF/],
  ])('is refused when it is %s', async (_, text, why) => {
    const bytes = Uint8Array.from(Buffer.from(text, 'latin1'));
    const answer = await put(bytes, await named(bytes));
    expect(answer.status).toBe(415);
    expect(await answer.json()).toMatchObject({ code: 'not-a-document', detail: expect.stringMatching(why) });
  });

  test('must be here before an item can be given it', async () => {
    const outcome = await studio.ask('item.give-file', {
      item: FILE,
      file: 'ef'.repeat(32),
      called: 'x.pdf',
    });
    expect(outcome).toMatchObject({ outcome: 'refused', refusal: { code: 'file-not-here' } });
  });

  test('is backed up, verified, and missed when it is lost', async () => {
    expect((await studio.host.verify()).files).toMatchObject({ kept: 1, missing: [] });
    rmSync(studio.host.documents.files.path(A_PDF_SHA256));
    expect((await studio.host.verify()).files.missing).toEqual([
      { sha256: A_PDF_SHA256, seq: expect.any(Number) },
    ]);
  });
});
