import { describe, expect, test } from 'vitest';
import { put, smallApp } from './small-studio.ts';

const json = { 'content-type': 'application/json' };
async function recordWith(headers: Record<string, string>) {
  const { plain, studio } = smallApp();
  const body = new TextEncoder().encode(JSON.stringify(put(1)));
  const answer = await plain('/api/commands', { method: 'POST', body, headers });
  const code = answer.ok ? undefined : (await answer.json()).code;
  return { status: answer.status, code, entries: studio.entries.length };
}

describe('the name it is asked by', () => {
  test.each(['localhost:4280', '127.0.0.1:4280', '[::1]:4280', 'LOCALHOST:4280'])(
    '%s is its own',
    async (host) => {
      const { ask } = smallApp();
      expect((await ask('/api/health', { headers: { host } })).status).toBe(200);
    },
  );

  test.each([
    'wareboard.example:4280',
    'localhost',
    'localhost:4281',
    'localhost.example:4280',
    '127.0.0.1:4280.example',
    '192.168.1.7:4280',
  ])('%s is turned away', async (host) => {
    const { ask } = smallApp({});
    const answer = await ask('/api/health', { headers: { host } });
    expect(answer.status).toBe(421);
    expect(await answer.json()).toMatchObject({ code: 'wrong-host' });
  });
});

describe('where a write comes from', () => {
  const written = { status: 200, code: undefined, entries: 1 };
  const crossSite = { status: 403, code: 'cross-site', entries: 0 };

  test('Wareboard’s own page may write', async () => {
    expect(
      await recordWith({ ...json, origin: 'http://localhost:4280', 'sec-fetch-site': 'same-origin' }),
    ).toEqual(written);
  });

  test('a page of another site may not, whatever it says of itself', async () => {
    expect(
      await recordWith({ ...json, origin: 'http://evil.example', 'sec-fetch-site': 'cross-site' }),
    ).toEqual(crossSite);
    expect(await recordWith({ ...json, origin: 'http://evil.example' })).toEqual(crossSite);
    expect(await recordWith({ ...json, 'sec-fetch-site': 'cross-site' })).toEqual(crossSite);
    expect(
      await recordWith({ ...json, origin: 'http://evil.example', 'sec-fetch-site': 'same-origin' }),
    ).toEqual(crossSite);
  });

  test('nor a page on another port of this machine, nor one without an origin of its own', async () => {
    expect(
      await recordWith({ ...json, origin: 'http://localhost:3000', 'sec-fetch-site': 'same-site' }),
    ).toEqual(crossSite);
    expect(await recordWith({ ...json, origin: 'http://localhost:3000' })).toEqual(crossSite);
    expect(await recordWith({ ...json, origin: 'null' })).toEqual(crossSite);
    expect(await recordWith({ ...json, 'sec-fetch-site': 'none' })).toEqual(crossSite);
  });

  test('a program that is no browser may, when it sends JSON', async () => {
    expect(await recordWith(json)).toEqual(written);
  });

  test('what an old browser could send unasked, without saying where from, is turned away', async () => {
    const refused = { status: 403, code: 'no-origin', entries: 0 };
    expect(await recordWith({ 'content-type': 'text/plain' })).toEqual(refused);
    expect(await recordWith({ 'content-type': 'application/x-www-form-urlencoded' })).toEqual(refused);
    expect(await recordWith({ 'content-type': 'multipart/form-data; boundary=x' })).toEqual(refused);
    expect(await recordWith({})).toEqual(refused);
  });

  test('another site’s page may not read either, but an address may be typed', async () => {
    const { ask } = smallApp();
    expect((await ask('/api/log', { headers: { 'sec-fetch-site': 'cross-site' } })).status).toBe(403);
    expect((await ask('/api/log', { headers: { 'sec-fetch-site': 'none' } })).status).toBe(200);
  });

  test('no other site is ever given leave to ask', async () => {
    const { ask } = smallApp();
    const asking = {
      origin: 'http://evil.example',
      'access-control-request-method': 'POST',
      'sec-fetch-site': 'cross-site',
    };
    const answer = await ask('/api/commands', { method: 'OPTIONS', headers: asking });
    expect(answer.status).toBe(403);
    expect(answer.headers.get('access-control-allow-origin')).toBeNull();
  });
});

describe('what a body may be', () => {
  test('a kind that is not JSON is refused', async () => {
    const { ask } = smallApp();
    const answer = await ask('/api/commands', {
      method: 'POST',
      body: 'x',
      headers: { 'content-type': 'text/plain' },
    });
    expect(answer.status).toBe(415);
    expect(await answer.json()).toMatchObject({ code: 'wrong-media-type' });
  });

  test('a megabyte and a byte are refused, told beforehand or not', async () => {
    const { ask, studio } = smallApp();
    const body = `[${' '.repeat(1024 * 1024)}]`;
    const told = await ask('/api/commands', {
      method: 'POST',
      body,
      headers: { ...json, 'content-length': String(body.length) },
    });
    expect(told.status).toBe(413);
    const stream = new Blob([body]).stream();
    const untold = await ask('/api/commands', {
      method: 'POST',
      body: stream,
      headers: json,
      duplex: 'half',
    } as RequestInit);
    expect(untold.status).toBe(413);
    expect(await untold.json()).toMatchObject({ code: 'too-large', detail: expect.stringContaining('1 MB') });
    expect(studio.entries).toEqual([]);
  });
});

describe('what a browser may do with an answer', () => {
  test.each(['/api/health', '/api/nothing', '/nothing'])('%s carries the same rules', async (path) => {
    const { ask } = smallApp();
    const { headers } = await ask(path);
    const policy = headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("style-src 'self';");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain('unsafe');
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('referrer-policy')).toBe('no-referrer');
    expect(headers.get('cross-origin-opener-policy')).toBe('same-origin');
    expect(headers.get('cross-origin-resource-policy')).toBe('same-origin');
  });

  test('one that is turned away carries them too', async () => {
    const { ask } = smallApp();
    const { headers } = await ask('/api/health', { headers: { host: 'evil.example' } });
    expect(headers.get('content-security-policy')).toContain("default-src 'none'");
  });

  test('what the studio records is not kept by a browser’s cache', async () => {
    const { ask } = smallApp();
    expect((await ask('/api/log')).headers.get('cache-control')).toBe('no-store');
  });
});

describe('an address that is not served', () => {
  test('is said not to be there', async () => {
    const { ask } = smallApp();
    const answer = await ask('/api/nothing');
    expect(answer.status).toBe(404);
    expect(await answer.json()).toMatchObject({ code: 'not-found', type: '/api/problems/not-found' });
  });

  test('or not to be served in that way, and in which it is', async () => {
    const { ask } = smallApp();
    const answer = await ask('/api/commands');
    expect(answer.status).toBe(405);
    expect(answer.headers.get('allow')).toBe('POST');
    expect(await answer.json()).toMatchObject({
      code: 'wrong-method',
      detail: 'This address takes POST, not GET.',
    });
  });
});
