/** The whole of it over real connections: https, the plain page, the verbs beside it. */

import { X509Certificate } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { request as plain } from 'node:http';
import { Agent, request as secure } from 'node:https';
import { createServer, Server, Socket } from 'node:net';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { LOCK } from '../../server/cli/lock.ts';
import { onlyOwnNetwork } from '../../server/http/serve-network.ts';
import { laptop } from '../network/laptop.ts';
import { atTheDesk } from './at-the-desk.ts';

const RIGHT = 'marram over cuttle, twice';
type Desk = ReturnType<typeof atTheDesk>;

const desk = (changed: Parameters<typeof atTheDesk>[0] = {}) =>
  atTheDesk({ machine: () => laptop(), now: new Date(), ...changed });

async function whileServing<T>(at: Desk, work: (address: string) => Promise<T>, ...words: string[]) {
  const serving = at.type('serve', ...words);
  try {
    const address = await Promise.race([
      at.address,
      serving.then(({ err }) => Promise.reject(new Error(err))),
    ]);
    if (words.includes('--network'))
      await expect
        .poll(() => standing(address), { timeout: 15_000 })
        .not.toMatchObject({ passphrase: true, on: false });
    await work(address);
  } finally {
    at.stop();
  }
  return serving;
}

interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly body: Buffer;
}

/** Asks a server on this machine by the name that a phone would use. */
function phone(
  port: number,
  path: string,
  ca: string | undefined,
  init: { method?: string; headers?: Record<string, string>; body?: string } = {},
) {
  const host = `hollin-laptop.local:${port}`;
  const ways = {
    host: '127.0.0.1',
    port,
    path,
    method: init.method ?? 'GET',
    headers: { host, ...init.headers },
  };
  return new Promise<Answer>((done, failed) => {
    const sending =
      ca === undefined
        ? plain({ ...ways, agent: false })
        : secure({
            ...ways,
            ca,
            servername: 'hollin-laptop.local',
            agent: new Agent({ maxCachedSessions: 0 }),
          });
    sending.on('response', async (answer) => {
      const body = Buffer.concat(await answer.toArray());
      done({ status: answer.statusCode!, headers: answer.headers, body });
    });
    sending.on('error', failed);
    sending.end(init.body);
  });
}

const settingsOf = (at: Desk) =>
  JSON.parse(readFileSync(join(at.dir, 'network', 'network.json'), 'utf8')) as {
    https: number;
    trust: number;
  };
const caOf = (at: Desk) => readFileSync(join(at.dir, 'network', 'authority.pem'), 'utf8');
const standing = async (address: string) => (await fetch(`${address}/api/network`)).json();

async function withPassphrase() {
  const at = desk({ secrets: [RIGHT] });
  expect((await at.type('passphrase')).code).toBe(0);
  return at;
}

test('without --network nothing listens but 127.0.0.1, passphrase or not', async () => {
  const at = await withPassphrase();
  const { out } = await whileServing(at, async (address) => {
    expect(await standing(address)).toEqual({
      here: true,
      asked: false,
      on: false,
      passphrase: true,
      addresses: [],
    });
    expect(existsSync(join(at.dir, 'network', 'network.json'))).toBe(false);
  });
  expect(out).not.toContain('https');
});

test('with --network a phone trusts the certificate, says the passphrase and comes in', async () => {
  const at = await withPassphrase();
  const { out, code } = await whileServing(
    at,
    async (address) => {
      const now = await standing(address);
      const { https, trust } = settingsOf(at);
      expect(now).toMatchObject({
        on: true,
        addresses: [`https://hollin-laptop.local:${https}`, `https://192.168.1.7:${https}`],
        trust: `http://192.168.1.7:${trust}`,
      });
      // The certificate comes from the plain page, and is the one whose fingerprint the laptop shows.
      const page = await phone(trust, '/', undefined);
      expect(page.body.toString()).toContain(now.fingerprint);
      expect(page.headers['content-security-policy']).toContain("default-src 'none'");
      const handed = await phone(trust, '/wareboard-authority.crt', undefined);
      expect(handed.headers['content-type']).toBe('application/x-x509-ca-cert');
      const certificate = new X509Certificate(handed.body);
      expect(certificate.fingerprint256).toBe(now.fingerprint);
      const ca = certificate.toString();

      expect((await phone(https, '/api/health', ca)).status).toBe(401);
      const signedIn = await phone(https, '/api/session', ca, {
        method: 'POST',
        headers: { 'content-type': 'application/json', origin: `https://hollin-laptop.local:${https}` },
        body: JSON.stringify({ passphrase: RIGHT, name: 'Ansa’s phone' }),
      });
      expect(signedIn.status).toBe(200);
      const cookie = signedIn.headers['set-cookie']![0]!.split(';')[0]!;
      const health = await phone(https, '/api/health', ca, { headers: { cookie } });
      expect(JSON.parse(health.body.toString())).toMatchObject({ ok: true });
    },
    '--network',
  );
  expect(code).toBe(0);
  expect(out).toMatch(
    /On the workshop’s network: https:\/\/hollin-laptop\.local:\d+ \(or https:\/\/192\.168\.1\.7:\d+\)/,
  );
});

test('the plain page hands out the certificate and nothing of the studio', async () => {
  const at = await withPassphrase();
  await whileServing(
    at,
    async () => {
      const { trust } = settingsOf(at);
      for (const path of [
        '/api/health',
        '/api/log',
        '/ware',
        '/index.html',
        '/network/authority.key',
        '/../authority.key',
      ])
        expect([path, (await phone(trust, path, undefined)).status]).toEqual([path, 404]);
      expect((await phone(trust, '/', undefined, { headers: { host: 'evil.example' } })).status).toBe(421);
    },
    '--network',
  );
});

test('a phone that does not trust the authority is not connected at all', async () => {
  const at = await withPassphrase();
  await whileServing(
    at,
    async () => {
      const other = desk({ secrets: [RIGHT] });
      await other.type('passphrase');
      await whileServing(other, async () => {}, '--network');
      await expect(phone(settingsOf(at).https, '/', caOf(other))).rejects.toThrow(/certificate/);
    },
    '--network',
  );
});

test('sending a device away cuts what it still listens to', async () => {
  const at = await withPassphrase();
  await whileServing(
    at,
    async (address) => {
      const { https } = settingsOf(at);
      const ca = caOf(at);
      const headers = { 'content-type': 'application/json', host: `hollin-laptop.local:${https}` };
      const body = JSON.stringify({ passphrase: RIGHT, name: 'Ansa’s phone' });
      const signedIn = await phone(https, '/api/session', ca, { method: 'POST', headers, body });
      const cookie = signedIn.headers['set-cookie']![0]!.split(';')[0]!;
      const ended = new Promise<string>((told) => {
        const live = secure({
          host: '127.0.0.1',
          port: https,
          path: '/api/log/live',
          ca,
          servername: 'hollin-laptop.local',
          headers: { host: headers.host, cookie },
        });
        live.on('error', () => told('cut'));
        live.on('response', (answer) => {
          answer
            .on('error', () => told('cut'))
            .on('end', () => told('ended'))
            .on('close', () => told('cut'));
          answer.once('data', () => void sendAway());
        });
        live.end();
        const sendAway = async () => {
          const { devices } = await (await fetch(`${address}/api/devices`)).json();
          await fetch(`${address}/api/devices/${devices[0].id}`, {
            method: 'DELETE',
            headers: { 'content-type': 'application/json' },
            body: '{}',
          });
        };
      });
      expect(await ended).toMatch(/cut|ended/);
      expect((await phone(https, '/api/health', ca, { headers: { cookie } })).status).toBe(401);
    },
    '--network',
  );
});

test('ports and authority are the same the next time, so that what waits on a phone is not stranded', async () => {
  const at = await withPassphrase();
  await whileServing(at, async () => {}, '--network');
  const first = { ...settingsOf(at), ca: caOf(at) };
  const again = desk({ dir: at.dir });
  await whileServing(again, async () => {}, '--network');
  expect({ ...settingsOf(again), ca: caOf(again) }).toEqual(first);
});

test('a port that another program has taken is named, and no other is taken in its place', async () => {
  const at = await withPassphrase();
  await whileServing(at, async () => {}, '--network');
  const { https } = settingsOf(at);
  const squatter = createServer();
  await new Promise<void>((up) => squatter.listen(https, '0.0.0.0', up));
  try {
    const { code, err } = await desk({ dir: at.dir }).type('serve', '--network');
    expect(code).toBe(1);
    expect(err).toContain(`Port ${https} or`);
    expect(err).toContain('Devices know this studio by these ports');
    expect(existsSync(join(at.dir, LOCK))).toBe(false);
  } finally {
    squatter.close();
  }
});

test('with --network and no passphrase nothing is opened until the laptop’s page sets one', async () => {
  const at = desk();
  const { out } = await whileServing(
    at,
    async (address) => {
      expect(await standing(address)).toMatchObject({ asked: true, on: false, passphrase: false });
      const set = (passphrase: string) =>
        fetch(`${address}/api/network/passphrase`, {
          method: 'PUT',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify({ passphrase }),
        });
      const short = await set('short');
      expect([short.status, (await short.json()).code]).toEqual([400, 'bad-passphrase']);
      expect((await set(RIGHT)).status).toBe(200);
      await expect.poll(async () => (await standing(address)).on).toBe(true);
      expect((await phone(settingsOf(at).trust, '/', undefined)).status).toBe(200);
    },
    '--network',
  );
  expect(out).toMatch(/No passphrase is set yet.*settings\/phone/);
});

test('while it runs, other verbs go through it, and so does a new passphrase', async () => {
  const at = await withPassphrase();
  const other = desk({ dir: at.dir, secrets: ['gannet grey inside only'] });
  await whileServing(
    at,
    async () => {
      expect((await other.type('verify')).out).toBe('The log is empty.\n');
      expect((await other.type('passphrase')).out).toMatch(/is set.*say it once/);
      expect(other.opened).toEqual([]);
      const { https } = settingsOf(at);
      const say = (passphrase: string) =>
        phone(https, '/api/session', caOf(at), {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify({ passphrase, name: 'Ansa’s phone' }),
        });
      expect((await say(RIGHT)).status).toBe(401);
      expect((await say('gannet grey inside only')).status).toBe(200);
    },
    '--network',
  );
});

test('the passphrase is asked for twice, told short, and printed nowhere', async () => {
  const unlike = await desk({ watched: true, secrets: [RIGHT, 'marram over cuttle'] }).type('passphrase');
  expect(unlike).toMatchObject({ code: 1, err: expect.stringContaining('nothing was changed') });
  expect(await desk({ secrets: [] }).type('passphrase')).toMatchObject({ code: 1 });
  expect(await desk({ secrets: ['short'] }).type('passphrase')).toMatchObject({ code: 1, err: /at least 8/ });
  const at = desk({ watched: true, secrets: ['nine signs', 'nine signs'] });
  const set = await at.type('passphrase');
  expect(set.out).toContain('It is short: 15 characters');
  expect(set.out + set.err).not.toContain('nine signs');
  expect(at.studio.entries).toEqual([]);
  const folder = join(at.dir, 'network');
  for (const name of readdirSync(folder)) {
    expect(readFileSync(join(folder, name), 'utf8')).not.toContain('nine signs');
    expect(statSync(join(folder, name)).mode & 0o777).toBe(0o600);
  }
});

test.each([
  ['93.184.216.34', true],
  ['2001:db8::7', true],
  ['192.168.1.20', false],
  ['::ffff:192.168.1.20', false],
])('who comes from %s is cut off before a word is read: %s', (remoteAddress, cut) => {
  const server = onlyOwnNetwork(new Server());
  let destroyed = false;
  const destroy = () => {
    destroyed = true;
  };
  const socket = Object.assign(new Socket(), { destroy });
  Object.defineProperty(socket, 'remoteAddress', { value: remoteAddress });
  server.emit('connection', socket);
  expect(destroyed).toBe(cut);
});
