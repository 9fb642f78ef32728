import { readdirSync, statSync } from 'node:fs';
import { request } from 'node:http';
import { Readable } from 'node:stream';
import { hc } from 'hono/client';
import { afterEach, expect, test } from 'vitest';
import type { App } from '../../server/http/app.ts';
import { type Serving, serve } from '../../server/http/serve.ts';
import { temporary } from '../support/folder.ts';
import { put, SmallStudio } from './small-studio.ts';

/* What only shows when there is a real connection. */

const MEGABYTE = 1024 * 1024;
let serving: Serving | undefined;
afterEach(() => serving?.close());

async function served(limit = 8 * MEGABYTE) {
  const folder = temporary('wire');
  const studio = new SmallStudio();
  const sizes: number[] = [];
  const keeping = {
    instance: 'one',
    version: '0.1.0',
    folder,
    uploads: { folder, limit },
    imports: {
      notebook: async ({ source }: { source: string }) => ({ bytes: sizes.push(statSync(source).size) }),
    },
    backup: async () => ({ folder, entries: 0 }),
  };
  serving = await serve({ host: studio.host, keeping }, 0);
  return { address: serving.address, studio, sizes, left: () => readdirSync(folder) };
}

/** Sends a file as it comes, and gives the answer even where the server stops reading. */
function upload(address: string, bytes: number, headers: Record<string, string | number> = {}) {
  return new Promise<{ status: number; body: { code?: string } }>((done, failed) => {
    const sending = request(`${address}/api/import/notebook`, {
      method: 'POST',
      headers: { 'content-type': 'text/csv', ...headers },
      agent: false,
    });
    sending.on('response', async (answer) => {
      const text = (await answer.toArray()).join('');
      done({ status: answer.statusCode!, body: JSON.parse(text) });
    });
    sending.on('error', failed);
    const block = Buffer.alloc(MEGABYTE / 4, 'a,b\n');
    Readable.from(Array.from({ length: Math.ceil(bytes / block.length) }, () => block)).pipe(sending);
  });
}

test('a file larger than any JSON body comes in as a stream', async () => {
  const { address, sizes, left } = await served();
  expect((await upload(address, 6 * MEGABYTE)).status).toBe(200);
  expect(sizes).toEqual([6 * MEGABYTE]);
  expect(left()).toEqual([]);
});

test('a file over the limit is answered with 413, told beforehand or found out on the way', async () => {
  const { address, sizes, left } = await served(MEGABYTE);
  expect(await upload(address, 2 * MEGABYTE)).toMatchObject({ status: 413, body: { code: 'too-large' } });
  const told = await upload(address, 2 * MEGABYTE, { 'content-length': 2 * MEGABYTE });
  expect(told).toMatchObject({ status: 413, body: { code: 'too-large' } });
  expect(sizes).toEqual([]);
  expect(left()).toEqual([]);
});

test('a sender that goes away in the middle leaves nothing behind', async () => {
  const { address, sizes, left } = await served();
  const sending = request(`${address}/api/import/notebook`, {
    method: 'POST',
    headers: { 'content-type': 'text/csv', 'content-length': MEGABYTE },
  });
  sending.on('error', () => {});
  sending.write('made,form\n');
  await expect.poll(left).toHaveLength(1);
  sending.destroy();
  await expect.poll(left).toEqual([]);
  expect(sizes).toEqual([]);
});

test('who stops listening to the log is not told any more', async () => {
  const { address, studio } = await served();
  const away = new AbortController();
  const answer = await fetch(`${address}/api/log/live`, { signal: away.signal });
  const reader = answer.body!.getReader();
  expect(new TextDecoder().decode((await reader.read()).value)).toContain('"count":0');
  expect(studio.listening).toBe(1);
  away.abort();
  await expect.poll(() => studio.listening).toBe(0);
});

test('the page’s client knows from the types of the routes what each takes and gives', async () => {
  const { address } = await served();
  const client = hc<App>(address);
  const recorded = await client.api.commands.$post({ json: put(4, 'Oyster Satin') });
  expect(recorded.status).toBe(200);
  const log = await client.api.log.$get({ query: { after: '0', limit: '10' } });
  if (log.status !== 200) throw new Error('not read');
  const { entries, next } = await log.json();
  expect(entries.map(({ seq, name }) => [seq, name])).toEqual([[1, 'pot.put']]);
  expect(next).toBeNull();
});
