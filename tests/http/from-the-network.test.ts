/** What a device on the workshop's network is answered, before and after it has said the passphrase. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { NETWORK, Network } from '../../server/network/network.ts';
import { laptop } from '../network/laptop.ts';
import { put, smallApp } from './small-studio.ts';

const RIGHT = 'marram over cuttle, twice';
const json = { 'content-type': 'application/json' };
const at = {
  host: 'hollin-laptop.local:4280',
  'sec-fetch-site': 'same-origin',
  origin: 'https://hollin-laptop.local:4280',
};
const folders: string[] = [];
afterEach(() => {
  for (const each of folders.splice(0)) rmSync(each, { recursive: true, force: true });
});

async function networked() {
  const dir = mkdtempSync(join(tmpdir(), 'wareboard-networked-'));
  folders.push(dir);
  const clock = () => new Date('2026-05-01T09:00:00Z');
  const cost = { N: 2 ** 10, r: 8, p: 1 };
  const network = new Network({
    folder: join(dir, NETWORK),
    clock,
    machine: () => laptop(),
    asked: true,
    cost,
  });
  await network.setPassphrase(RIGHT);
  const made = smallApp({ network });
  const from = (path: string, init: RequestInit = {}) =>
    made.plain(path, { ...init, headers: { ...at, ...(init.headers as Record<string, string>) } });
  const signIn = (passphrase: string, headers: Record<string, string> = {}) =>
    from('/api/session', {
      method: 'POST',
      headers: { ...json, ...headers },
      body: JSON.stringify({ passphrase, name: 'Ansa’s phone' }),
    });
  const cookieOf = (answer: Response) => answer.headers.get('set-cookie')!.split(';')[0]!;
  return { ...made, network, from, signIn, cookieOf };
}

describe('a device that is not signed in', () => {
  test.each([
    ['GET', '/api/health'],
    ['GET', '/api/log'],
    ['GET', '/api/log/live'],
    ['GET', '/api/reports/shelf/pots'],
    ['GET', '/api/openapi.json'],
    ['GET', '/api/network'],
    ['GET', '/api/devices'],
    ['POST', '/api/commands'],
    ['POST', '/api/admin/backup'],
    ['PUT', '/api/network/passphrase'],
    ['DELETE', '/api/devices/any'],
    ['GET', '/api/session/../log'],
    ['GET', '/api//log'],
  ])('is answered nothing: %s %s', async (method, path) => {
    const { from } = await networked();
    const answer = await from(path, { method, headers: json, ...(method === 'GET' ? {} : { body: '{}' }) });
    expect(answer.status).toBe(401);
    expect((await answer.json()).code).toBe('signed-out');
  });

  test('may open a link to a file, since the address is the key; one that was not made here opens nothing', async () => {
    const { from } = await networked();
    const forged = '/fetch/shelf/pot/1/2026-06-01/5/AAAAAAAAAAAAAAAAAAAAAA';
    expect((await from(forged)).status).toBe(403);
    expect((await from('/api/handouts')).status).toBe(401);
    expect((await from('/api/handouts/shelf/pot/1/file')).status).toBe(401);
  });

  test('records nothing', async () => {
    const { from, studio } = await networked();
    await from('/api/commands', { method: 'POST', headers: json, body: JSON.stringify(put(3)) });
    expect(studio.entries).toEqual([]);
  });

  test('hears only that it is not signed in', async () => {
    const { from } = await networked();
    expect(await (await from('/api/session')).json()).toEqual({ here: false, signedIn: false });
  });

  test.each([
    '__Host-wareboard=',
    `__Host-wareboard=${'a'.repeat(43)}`,
    `__Host-wareboard=${'a'.repeat(5000)}`,
  ])('is not let in by a made-up cookie', async (cookie) => {
    const { from } = await networked();
    expect((await from('/api/health', { headers: { cookie } })).status).toBe(401);
  });
});

describe('signing in', () => {
  test('gives a cookie that only this page over https ever gets, and no script', async () => {
    const { signIn } = await networked();
    const answer = await signIn(RIGHT);
    expect(answer.status).toBe(200);
    const [pair, ...attributes] = answer.headers.get('set-cookie')!.split('; ');
    expect(pair).toMatch(/^__Host-wareboard=[\w-]{43}$/);
    expect(attributes.map((each) => each.toLowerCase()).sort()).toEqual([
      'httponly',
      'max-age=34560000',
      'path=/',
      'samesite=strict',
      'secure',
    ]);
    expect(JSON.stringify(await answer.json())).not.toContain(pair!.split('=')[1]!);
  });

  test('lets the device record, under its own name in the list', async () => {
    const { from, signIn, cookieOf, studio } = await networked();
    const cookie = cookieOf(await signIn(RIGHT));
    const sent = { method: 'POST', headers: { ...json, cookie }, body: JSON.stringify(put(3)) };
    expect((await from('/api/commands', sent)).status).toBe(200);
    expect(studio.entries).toHaveLength(1);
    const { devices } = await (await from('/api/devices', { headers: { cookie } })).json();
    expect(devices).toMatchObject([{ name: 'Ansa’s phone', seen: '2026-05-01T09:00:00.000Z' }]);
  });

  test('with a wrong passphrase says so, and then how long to wait', async () => {
    const { signIn } = await networked();
    const first = await signIn('gannet grey');
    expect([first.status, (await first.json()).code]).toEqual([401, 'wrong-passphrase']);
    expect(first.headers.get('set-cookie')).toBeNull();
    await signIn('gannet grey');
    await signIn('gannet grey');
    const fourth = await signIn(RIGHT);
    expect([fourth.status, fourth.headers.get('retry-after')]).toEqual([429, '2']);
    expect(await fourth.json()).toMatchObject({
      code: 'too-many-tries',
      seconds: 2,
      detail: /Wait 2 seconds/,
    });
  });

  test('is not for a page of another site, nor over plain http', async () => {
    const { signIn } = await networked();
    for (const origin of ['https://evil.example', 'http://hollin-laptop.local:4280', 'null'])
      expect((await signIn(RIGHT, { origin })).status).toBe(403);
    expect((await signIn(RIGHT, { 'sec-fetch-site': 'cross-site' })).status).toBe(403);
  });

  test('only by the names of this studio', async () => {
    const { from } = await networked();
    for (const host of ['hollin-laptop.local:4281', 'evil.example:4280', '127.0.0.1:4280', 'localhost:4280'])
      expect((await from('/api/session', { headers: { host } })).status).toBe(421);
    expect((await from('/api/session', { headers: { host: '192.168.1.7:4280', origin: '' } })).status).toBe(
      200,
    );
  });
});

describe('sending a device away', () => {
  test('ends what it may do, and leaves the others', async () => {
    const { from, signIn, cookieOf } = await networked();
    const phone = cookieOf(await signIn(RIGHT));
    const tablet = cookieOf(await signIn(RIGHT));
    const { device } = await (await from('/api/session', { headers: { cookie: phone } })).json();
    const away = await from(`/api/devices/${device.id}`, {
      method: 'DELETE',
      headers: { ...json, cookie: tablet },
      body: '{}',
    });
    expect(away.status).toBe(200);
    expect((await away.json()).devices).toHaveLength(1);
    expect((await from('/api/health', { headers: { cookie: phone } })).status).toBe(401);
    expect((await from('/api/health', { headers: { cookie: tablet } })).status).toBe(200);
    const again = await from(`/api/devices/${device.id}`, {
      method: 'DELETE',
      headers: { ...json, cookie: tablet },
      body: '{}',
    });
    expect([again.status, (await again.json()).code]).toEqual([404, 'unknown-device']);
  });

  test('a device signs itself out, and its cookie is taken back', async () => {
    const { from, signIn, cookieOf } = await networked();
    const cookie = cookieOf(await signIn(RIGHT));
    const out = await from('/api/session', { method: 'DELETE', headers: { ...json, cookie }, body: '{}' });
    expect(await out.json()).toEqual({ here: false, signedIn: false });
    expect(out.headers.get('set-cookie')).toMatch(/^__Host-wareboard=;.*Max-Age=0/);
    expect((await from('/api/health', { headers: { cookie } })).status).toBe(401);
  });
});

test('the passphrase is set on the laptop only', async () => {
  const { from, signIn, cookieOf, network } = await networked();
  const cookie = cookieOf(await signIn(RIGHT));
  const set = {
    method: 'PUT',
    headers: { ...json, cookie },
    body: JSON.stringify({ passphrase: 'mine from now on' }),
  };
  const answer = await from('/api/network/passphrase', set);
  expect([answer.status, (await answer.json()).code]).toEqual([403, 'only-here']);
  expect(await network.door.passphrase.fits(RIGHT)).toBe(true);
});

test('on the laptop itself nobody signs in', async () => {
  const { ask } = smallApp();
  expect(await (await ask('/api/session')).json()).toEqual({ here: true, signedIn: true });
  expect(await (await ask('/api/network')).json()).toMatchObject({ here: true, on: false });
});
