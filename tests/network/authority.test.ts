import { X509Certificate } from 'node:crypto';
import { chmodSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect } from 'node:tls';
import { afterAll, describe, expect, test } from 'vitest';
import { makeAuthority, makeLeaf } from '../../server/network/authority.ts';
import { certified } from '../../server/network/certificates.ts';
import { isOwnNetwork, localName, ownNumbers } from '../../server/network/places.ts';
import { laptop } from './laptop.ts';

const NOW = new Date();
const folders: string[] = [];
const folder = () => {
  const made = mkdtempSync(join(tmpdir(), 'wareboard-network-'));
  folders.push(made);
  return join(made, 'network');
};
afterAll(() => {
  for (const each of folders) rmSync(each, { recursive: true, force: true });
});

const authority = await makeAuthority('hollin-laptop.local', NOW);

/** What a device that trusts the authority makes of a certificate for these names, when it asks for the first. */
async function seenByADevice(names: readonly string[]): Promise<string> {
  const leaf = await makeLeaf(authority, names, NOW);
  const server = createServer({ cert: leaf.certificate, key: leaf.key }, (_, answer) => answer.end());
  await new Promise<void>((up) => server.listen(0, '127.0.0.1', up));
  const { port } = server.address() as AddressInfo;
  try {
    return await new Promise<string>((told) => {
      const asked = names[0]!;
      const socket = connect(
        // An address by number is asked for without a server name.
        {
          port,
          host: '127.0.0.1',
          ca: authority.certificate,
          servername: /^[\d.]+$/.test(asked) ? '' : asked,
          checkServerIdentity: () => undefined,
        },
        () => told('trusted'),
      );
      socket.once('error', (error) => told(error.message));
      socket.once('secureConnect', () => socket.end());
    });
  } finally {
    server.close();
    server.closeAllConnections();
  }
}

describe('a device that trusts the studio’s authority', () => {
  test.each([
    [['hollin-laptop.local']],
    [['localhost']],
    [['192.168.1.7']],
    [['10.20.30.40', 'hollin-laptop.local']],
  ])('takes its word for %j', async (names) => {
    expect(await seenByADevice(names)).toBe('trusted');
  });

  test.each([
    [['bank.example']],
    [['hollin-laptop.local', 'bank.example']],
    [['another-laptop.local']],
    [['93.184.216.34']],
    [['172.32.0.1']],
  ])('refuses it for %j, whatever it signs', async (names) => {
    expect(await seenByADevice(names)).toBe('permitted subtree violation');
  });
});

describe('the certificates in the data folder', () => {
  test('are made once, and only the studio’s own account can read their keys', async () => {
    const at = folder();
    const first = await certified(at, laptop(), NOW);
    const second = await certified(at, laptop(), NOW);
    expect(second).toEqual(first);
    expect(first.names).toEqual(['localhost', 'hollin-laptop.local', '127.0.0.1', '192.168.1.7']);
    for (const name of readdirSync(at))
      expect([name, statSync(join(at, name)).mode & 0o777]).toEqual([name, 0o600]);
    expect(first.fingerprint).toBe(new X509Certificate(first.authority.certificate).fingerprint256);
  });

  test('the server’s is renewed a month before it ends, and the authority stays', async () => {
    const at = folder();
    const first = await certified(at, laptop(), NOW);
    const in50Days = new Date(NOW.getTime() + 50 * 86_400_000);
    const in70Days = new Date(NOW.getTime() + 70 * 86_400_000);
    expect((await certified(at, laptop(), in50Days)).leaf).toEqual(first.leaf);
    const renewed = await certified(at, laptop(), in70Days);
    expect(renewed.leaf).not.toEqual(first.leaf);
    expect(renewed.authority).toEqual(first.authority);
    const until = new Date(new X509Certificate(renewed.leaf.certificate).validTo).getTime();
    expect(Math.round((until - in70Days.getTime()) / 86_400_000)).toBe(90);
  });

  test('a laptop that was given another number gets a certificate for it', async () => {
    const at = folder();
    const first = await certified(at, laptop('192.168.1.7'), NOW);
    const moved = await certified(at, laptop('192.168.1.44'), NOW);
    expect(moved.leaf).not.toEqual(first.leaf);
    expect(moved.names).toContain('192.168.1.44');
    expect(moved.fingerprint).toBe(first.fingerprint);
  });

  test('a laptop that was given another name keeps the one that devices trust', async () => {
    const at = folder();
    await certified(at, laptop(), NOW);
    const renamed = await certified(at, { ...laptop(), hostname: 'new-laptop' }, NOW);
    expect(renamed.names).toContain('hollin-laptop.local');
    expect(renamed.names).not.toContain('new-laptop.local');
  });

  test('an authority whose key is gone is not replaced without a word', async () => {
    const at = folder();
    await certified(at, laptop(), NOW);
    rmSync(join(at, 'authority.key'));
    await expect(certified(at, laptop(), NOW)).rejects.toThrow(
      /its key is not.*every device then has to trust/,
    );
  });

  test('keys that others could read are closed to them', async () => {
    const at = folder();
    await certified(at, laptop(), NOW);
    chmodSync(join(at, 'authority.key'), 0o644);
    await certified(at, laptop(), NOW);
    expect(statSync(join(at, 'authority.key')).mode & 0o777).toBe(0o600);
  });
});

describe('names and numbers of the laptop', () => {
  test.each([
    ['Hollin-Laptop', 'hollin-laptop.local'],
    ['hollin-laptop.local', 'hollin-laptop.local'],
    ['hollin.yard.example', 'hollin.local'],
    ['localhost', undefined],
    ['Ansa’s laptop', undefined],
    ['', undefined],
  ])('%j is announced as %s', (hostname, name) => {
    expect(localName({ ...laptop(), hostname })).toBe(name);
  });

  test('only numbers of its own network are given out, those of virtual machines last', () => {
    const at = (address: string, internal = false) =>
      [{ family: 'IPv4', internal, address, netmask: '', mac: '', cidr: null }] as never;
    const interfaces = {
      docker0: at('172.17.0.1'),
      lo: at('127.0.0.1', true),
      ppp0: at('93.184.216.34'),
      wlan0: at('192.168.1.7'),
    };
    expect(ownNumbers({ hostname: 'hollin-laptop', interfaces })).toEqual(['192.168.1.7', '172.17.0.1']);
  });

  test.each([
    ['192.168.1.7', true],
    ['::ffff:10.1.2.3', true],
    ['fe80::1', true],
    ['172.31.255.255', true],
    ['172.32.0.1', false],
    ['93.184.216.34', false],
    ['2001:db8::1', false],
    ['nonsense', false],
    [undefined, false],
  ])('%s comes from a network of one’s own: %s', (address, own) => {
    expect(isOwnNetwork(address)).toBe(own);
  });
});
