/** Small pictures of the day's ware stay on the device, so that a piece is known at the kiln without the network. */
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { KeptPicture } from '../../server/files/pictures.ts';
import { type Database, openDatabase, STEPS } from '../../web/device/database.ts';
import { fetchDay } from '../../web/device/fetch-day.ts';
import { fetchPictures, newestPictures } from '../../web/device/fetch-pictures.ts';
import { KeptDay } from '../../web/device/kept.ts';
import { OutboxStore } from '../../web/outbox/store.ts';
import { done } from '../support/given.ts';
import { askApp } from '../support/offline.ts';
import { photograph } from '../support/photographs.ts';
import { NOON, type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, JUG, tilesAndStudentsJug } from '../support/yard.ts';

const BOWL = '01980000-0000-7000-8000-0000000000cc';

let studio: StudioHost;
let db: Promise<Database>;
let kept: KeptDay;
let brought: string[];
let databases = 0;
beforeEach(async () => {
  studio = await studioHost();
  await studio.tell(...tilesAndStudentsJug);
  databases += 1;
  db = openDatabase(`pictures-${databases}`);
  kept = new KeptDay(() => db);
  brought = [];
});
afterEach(() => studio.close());

const ask = async <T>(address: string): Promise<T> => (await askApp(studio)(address)).json() as Promise<T>;
const bring = async (sha256: string): Promise<Blob | undefined> => {
  brought.push(sha256);
  const answer = await askApp(studio)(`/api/files/${sha256}?size=small`);
  return answer.ok ? answer.blob() : undefined;
};
const fetchAll = async () => {
  await fetchDay(kept, ask, () => NOON.getTime());
  await fetchPictures(kept, bring);
};

let side = 40;
async function attach(piece: string, on: string): Promise<KeptPicture> {
  side += 1;
  const picture = await studio.host.pictures.keep(await photograph(side, side));
  await studio.tell(done(on, 'file.attach', { to: `piece:${piece}`, ...picture }));
  return picture;
}

test('the newest picture of each piece is kept, what stands in a kiln first, and fetched once', async () => {
  await studio.tell(begin(BOWL, 1, '2026-04-01'));
  const bowl = await attach(BOWL, '2026-04-02');
  const older = await attach(JUG, '2026-03-02');
  const newest = await attach(JUG, '2026-03-03');
  await fetchAll();
  expect(brought).toEqual([newest.sha256, bowl.sha256]);
  expect((await kept.small(newest.sha256))?.type).toBe('image/webp');
  expect(await kept.small(older.sha256)).toBeUndefined();
  await fetchAll();
  expect(brought).toHaveLength(2);
});

test('a picture that was taken back gives way to the one before, and comes back with its entry', async () => {
  const first = await attach(JUG, '2026-03-02');
  const second = await attach(JUG, '2026-03-03');
  const { count } = await studio.host.log.head();
  await studio.tell(done('2026-03-04', 'entry.strike', { seqs: [count] }));
  await fetchAll();
  expect(brought).toEqual([first.sha256]);
  await studio.tell(done('2026-03-04', 'entry.strike', { seqs: [count + 1] }));
  await fetchAll();
  expect(brought).toEqual([first.sha256, second.sha256]);
  expect(await kept.small(first.sha256)).toBeUndefined();
});

test('of somebody who is forgotten no picture stays on the device', async () => {
  const picture = await attach(JUG, '2026-03-03');
  await fetchAll();
  expect(await kept.small(picture.sha256)).toBeDefined();
  await studio.host.forget('student-1', {
    id: '01980000-0000-7000-8000-0000000f0f0f',
    who: 'ansa',
    device: 'laptop',
  });
  await fetchAll();
  expect(await kept.small(picture.sha256)).toBeUndefined();
});

test('a device that is sent away keeps none, but for what it has not sent', async () => {
  const picture = await attach(JUG, '2026-03-03');
  const store = new OutboxStore(() => db);
  await store.add([], [{ sha256: 'ab'.repeat(32), blob: new Blob(['taken here']) }]);
  await fetchAll();
  await kept.forget();
  expect(await kept.small(picture.sha256)).toBeUndefined();
  expect(await store.files(['ab'.repeat(32)])).toHaveLength(1);
});

test('no more are kept than a phone has room for', () => {
  const entries = Array.from({ length: 400 }, (_, n) => ({
    ...{ seq: n + 1, name: 'file.attached', happenedAt: '2026-03-01' },
    data: { to: `piece:lot-${n}`, sha256: String(n) },
  })) as unknown as Parameters<typeof newestPictures>[1];
  const newest = newestPictures(['piece:lot-7'], entries);
  expect(newest).toHaveLength(240);
  expect(newest.slice(0, 2)).toEqual(['7', '399']);
});

test('a device that kept no pictures before keeps what waits on it when the newer page opens', async () => {
  const before = await openDatabase('before-pictures', STEPS.slice(0, 1));
  await new OutboxStore(async () => before).add([], [{ sha256: 'cd'.repeat(32), blob: new Blob(['waits']) }]);
  before.close();
  const after = await openDatabase('before-pictures');
  expect(await after.get('files', 'cd'.repeat(32))).toBeDefined();
  expect(await after.getAll('smalls')).toEqual([]);
  after.close();
});
