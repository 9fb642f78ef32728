/** Pictures that were sent and of which nothing came: let go of after a long while, and never one that is spoken of. */
import { existsSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { clearUnspoken, DAYS_OF_GRACE } from '../../server/host/unspoken.ts';
import { openHost } from '../../server/open-host.ts';
import { studio as studioPlugin } from '../../server/studio/studio.ts';
import { done } from '../support/given.ts';
import { photograph } from '../support/photographs.ts';
import { NOON, type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, JUG, materials } from '../support/yard.ts';

let studio: StudioHost;
beforeEach(async () => {
  studio = await studioHost();
  await studio.tell(...materials, begin(JUG, 1));
});
afterEach(() => studio.close());

const daysAgo = (days: number) => new Date(NOON.getTime() - days * 86_400_000);
let side = 20;
/** Sent that many days ago. */
async function sent(days: number) {
  side += 1;
  const picture = await studio.host.pictures.keep(await photograph(side, side));
  const path = studio.host.pictures.files.path(picture.sha256);
  utimesSync(path, daysAgo(days), daysAgo(days));
  return picture;
}
const standing = (sha256: string) => studio.host.pictures.files.standing(sha256);
const attach = (picture: object) => done('2026-06-01', 'file.attach', { to: `piece:${JUG}`, ...picture });

test('one of which nothing came goes after the days of grace, with its small copy; a newer one stays', async () => {
  const [old, newer] = [await sent(DAYS_OF_GRACE + 1), await sent(DAYS_OF_GRACE - 1)];
  expect(await studio.host.clearUnspoken()).toBe(1);
  expect([standing(old.sha256), standing(newer.sha256)]).toEqual(['missing', 'kept']);
  const small = join(studio.dir, 'small', old.sha256.slice(0, 2), old.sha256.slice(2));
  expect(existsSync(small)).toBe(false);
  expect(await studio.host.clearUnspoken()).toBe(0);
});

test('one that an entry speaks of stays, were the entry struck out as well', async () => {
  const [attached, struck] = [await sent(400), await sent(400)];
  await studio.tell(attach(attached), attach(struck));
  const { count } = await studio.host.log.head();
  await studio.tell(done('2026-06-02', 'entry.strike', { seqs: [count] }));
  for (const { sha256 } of [attached, struck])
    utimesSync(studio.host.pictures.files.path(sha256), daysAgo(400), daysAgo(400));
  expect(await studio.host.clearUnspoken()).toBe(0);
  expect([standing(attached.sha256), standing(struck.sha256)]).toEqual(['kept', 'kept']);
});

test('one that a plugin’s entry speaks of stays when the plugin is gone', async () => {
  const picture = await sent(400);
  await studio.tell(
    done('2026-06-01', 'order.place', {
      ...{ number: '1001', buyer: 'p-buyer', name: 'Ora Fennimore', country: 'GB', way: 'file' },
      lines: [{ item: 'House Lantern template', quantity: 1, price: { amount: 900, currency: 'GBP' } }],
    }),
    done('2026-06-02', 'order.keep-picture', {
      ...{ order: 'shop/1001', sha256: picture.sha256, type: picture.type, bytes: picture.bytes },
      allows: ['keep'],
    }),
  );
  utimesSync(studio.host.pictures.files.path(picture.sha256), daysAgo(400), daysAgo(400));
  const { dir } = studio;
  await studio.host.close();
  const without = await openHost({ dir, plugins: [studioPlugin], clock: () => NOON });
  expect(await without.clearUnspoken()).toBe(0);
  expect(without.pictures.files.standing(picture.sha256)).toBe('kept');
  await without.close();
});

test('sent again, or named by an entry that comes while they are cleared, it stays', async () => {
  const [again, named] = [await sent(400), await sent(400)];
  const { log, pictures } = studio.host;
  const whileReading = {
    ...log,
    read: async (after: number, limit: number) => {
      const entries = await log.read(after, limit);
      // The phone is heard of again in the middle of it, and only its order comes after.
      if (entries.length === 0) {
        await pictures.keep(await photograph(again.width, again.height));
        await studio.tell(attach(named));
      }
      return entries;
    },
  } as typeof log;
  expect(await clearUnspoken(whileReading, pictures, NOON)).toEqual([]);
  expect([standing(again.sha256), standing(named.sha256)]).toEqual(['kept', 'kept']);
});

test('where the log cannot be read nothing is let go of', async () => {
  const old = await sent(400);
  const broken = {
    read: () => Promise.reject(new Error('not to be read')),
  } as unknown as typeof studio.host.log;
  await expect(clearUnspoken(broken, studio.host.pictures, NOON)).rejects.toThrow('not to be read');
  expect(standing(old.sha256)).toBe('kept');
});
