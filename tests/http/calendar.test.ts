import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { buildApp } from '../../server/http/app.ts';
import { Jobs } from '../../server/http/jobs.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, drawn, materials, TILES } from '../support/yard.ts';

const PORT = 4280;
let folder: string;
let studio: StudioHost;
let app: ReturnType<typeof buildApp>;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'wareboard-calendar-'));
  studio = await studioHost();
  await studio.tell(
    ...materials,
    begin(TILES, 12, '2026-06-01'),
    ...drawn('B1', 'bisque', [TILES], '2026-06-10'),
  );
  app = buildApp({
    host: studio.host,
    keeping: {
      instance: 'test',
      version: 'test',
      folder,
      uploads: { folder, limit: 1 },
      imports: {},
      backup: () => Promise.reject(new Error('no backups here')),
    },
    jobs: new Jobs(
      () => '1',
      () => {},
    ),
    port: () => PORT,
  });
});
afterEach(async () => {
  await studio.close();
  rmSync(folder, { recursive: true, force: true });
});

const at = (path: string) => `http://127.0.0.1:${PORT}${path}`;
const get = (path: string) => app.request(at(path));
const post = async (path: string): Promise<{ path: string | null }> => {
  const answer = await app.request(at(path), {
    method: 'POST',
    body: '{}',
    headers: { 'content-type': 'application/json' },
  });
  return (await answer.json()) as { path: string | null };
};

describe('the calendar', () => {
  test('has no address until one is made, and then gives the firings to whoever knows it', async () => {
    expect(await (await get('/api/calendar')).json()).toEqual({ path: null });
    const { path } = await post('/api/calendar/new-address');
    expect(path).toMatch(/^\/calendar\/[A-Za-z0-9_-]{43}\.ics$/);
    const feed = await get(path!);
    expect(feed.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
    const calendar = new ICAL.Component(ICAL.parse(await feed.text()));
    expect(calendar.getAllSubcomponents('vevent').map((it) => it.getFirstPropertyValue('uid'))).toEqual([
      'firing-B1.studio@wareboard',
    ]);
    expect(calendar.getFirstSubcomponent('vevent')!.getFirstPropertyValue('url')).toBe(at('/kilns/B1'));
  });

  test('a new address shuts the one before; shut, none is open', async () => {
    const first = (await post('/api/calendar/new-address')).path!;
    const second = (await post('/api/calendar/new-address')).path!;
    expect((await get(first)).status).toBe(404);
    expect((await get(second)).status).toBe(200);
    expect(await post('/api/calendar/shut')).toEqual({ path: null });
    expect((await get(second)).status).toBe(404);
  });

  test('a wrong address gives nothing, and nobody else on this machine can read the secret', async () => {
    await post('/api/calendar/new-address');
    for (const path of [
      '/calendar/x.ics',
      '/calendar/.ics',
      `/calendar/${'A'.repeat(43)}.ics`,
      '/calendar/x',
    ])
      expect((await get(path)).status, path).toBe(404);
    expect(statSync(join(folder, 'calendar.json')).mode & 0o077).toBe(0);
  });

  test('a damaged file opens nothing, and a new address can be made', async () => {
    writeFileSync(join(folder, 'calendar.json'), '{"secret":""}');
    expect(await (await get('/api/calendar')).json()).toEqual({ path: null });
    expect((await get('/calendar/.ics')).status).toBe(404);
    expect((await post('/api/calendar/new-address')).path).toBeTruthy();
  });
});
