/** A phone that is full, and one whose browser clears what the page had kept. */
import type { CDPSession } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { beaker, cup, FarKiln, order } from '../support/far-kiln.ts';
import { photograph } from '../support/photographs.ts';

const kiln = new FarKiln();
let browserSays: CDPSession;
beforeAll(() => kiln.open(), 180_000);
afterAll(() => kiln.close());
/** Bytes that the browser lets the page keep: its own files and the day's work fit, and not much more. */
const ROOM = 40_000_000;
const room = (quotaSize: number) =>
  browserSays.send('Storage.overrideQuotaForOrigin', { origin: kiln.studio.address, quotaSize });
beforeEach(async () => {
  await kiln.newPhone();
  browserSays = await kiln.context.newCDPSession(await kiln.context.newPage());
  await room(ROOM);
  await kiln.firstVisit();
}, 120_000);
afterEach(() => expect(kiln.faults).toEqual([]));

/** Other things take all the room there is: the browser has given out what it had, and has no more. */
const fillUp = async () => {
  await kiln.page.evaluate(async () => {
    const opening = indexedDB.open('other-things');
    opening.onupgradeneeded = () => opening.result.createObjectStore('things', { autoIncrement: true });
    await new Promise((done) => {
      opening.onsuccess = done;
    });
    const keep = (thing: Uint8Array) =>
      new Promise<boolean>((tell) => {
        const transaction = opening.result.transaction('things', 'readwrite');
        transaction.objectStore('things').add(thing);
        transaction.oncomplete = () => tell(true);
        transaction.onabort = () => tell(false);
      });
    const block = crypto.getRandomValues(new Uint8Array(65_536));
    for (const size of [4_000_000, 500_000, 50_000, 5_000, 500]) {
      const thing = new Uint8Array(size);
      for (let at = 0; at < size; at += block.length) thing.set(block.subarray(0, size - at), at);
      while (await keep(thing));
    }
    opening.result.close();
  });
  await room(1);
};

const makeRoom = () => room(2 * ROOM);

const clear = (storageTypes: string) =>
  browserSays.send('Storage.clearDataForOrigin', { origin: kiln.studio.address, storageTypes });

/** What stands in a store of the device's database, looked at past the page. */
const inStore = (name: string): Promise<number> =>
  kiln.page.evaluate(
    (store) =>
      new Promise<number>((tell, fail) => {
        const opening = indexedDB.open('wareboard');
        opening.onerror = () => fail(opening.error);
        opening.onsuccess = () => {
          const counting = opening.result.transaction(store).objectStore(store).count();
          counting.onsuccess = () => {
            opening.result.close();
            tell(counting.result);
          };
        };
      }),
    name,
  );

test('a full phone says what was not kept, keeps nothing by halves, and the piece can be tried again', async () => {
  await kiln.page.goto('/kilns/G1/draw');
  await kiln.inHand('BEAK-1');
  await kiln.context.setOffline(true);
  await kiln.press('Good');
  await kiln.inHand('BEAK-2');
  await kiln.stands('1 entry waiting to be sent');
  await fillUp();
  await kiln.press('Fault', 'runs', 'foot', 'A second, to be mended', 'grind');
  await kiln.page.locator('.problem').getByText('This device has no room left: this was not kept.').waitFor();
  await kiln.stands('This device has no room left.');
  await kiln.stands('1 entry waiting to be sent');
  await kiln.inHand('BEAK-2');
  expect(await inStore('outbox')).toBe(1);

  // Nothing of it shows anywhere.
  await kiln.page.goto(`/ware/${beaker(2)}`);
  await kiln.page.getByText('BEAK-2').first().waitFor();
  expect(await kiln.page.getByText('runs').count()).toBe(0);
  await kiln.page.goto('/kilns/G1/draw');
  await kiln.inHand('BEAK-2');

  // With room again the same is noted by the same keys.
  await makeRoom();
  await kiln.press('Fault', 'runs', 'foot', 'A second, to be mended', 'grind');
  await kiln.inHand('BEAK-3');
  await kiln.stands('2 entries waiting to be sent');
  expect(await kiln.page.locator('.stands').getByText('no room left').count()).toBe(0);
}, 90_000);

test('on a full phone the words of a note stay in the form', async () => {
  await kiln.page.goto(`/ware/${beaker(2)}/note`);
  await kiln.page.getByLabel('Note').fill('a run past the foot');
  await kiln.context.setOffline(true);
  await fillUp();
  await kiln.press('Write it down');
  await kiln.page.locator('.problem').getByText('this was not kept').waitFor();
  expect(await kiln.page.getByLabel('Note').inputValue()).toBe('a run past the foot');
  await makeRoom();
  await kiln.press('Write it down');
  await kiln.stands('1 entry waiting to be sent');
}, 90_000);

test('on a full phone a picture is not kept without what it shows, nor the other way round', async () => {
  await kiln.page.goto(`/ware/${beaker(3)}`);
  await kiln.page.getByText('BEAK-3').first().waitFor();
  await kiln.context.setOffline(true);
  await fillUp();
  const picture = {
    name: 'kiln.jpg',
    mimeType: 'image/jpeg',
    buffer: Buffer.from(await photograph(900, 600)),
  };
  await kiln.page.locator('input[type=file][capture]').setInputFiles(picture);
  await kiln.page.locator('.problem').getByText('this was not kept').waitFor();
  expect([await inStore('files'), await inStore('outbox')]).toEqual([0, 0]);
  await makeRoom();
  await kiln.page.locator('input[type=file][capture]').setInputFiles(picture);
  await kiln.stands('1 entry waiting to be sent');
  expect([await inStore('files'), await inStore('outbox')]).toEqual([1, 1]);
}, 60_000);

test('a full phone that hears the studio goes on noting', async () => {
  const before = (await kiln.entries()).length;
  await kiln.page.goto(`/ware/${beaker(4)}/note`);
  await kiln.page.getByLabel('Note').waitFor();
  await fillUp();
  await kiln.page.getByLabel('Note').fill('the spout drips');
  await kiln.press('Write it down');
  await kiln.page.locator('.done').waitFor();
  await kiln.stands('Until there is, something can be noted only while the studio is heard.');
  expect((await kiln.entries()).slice(before).map(({ name }) => name)).toEqual(['piece.noted']);
  expect(await inStore('outbox')).toBe(0);
}, 60_000);

test('what waits on a phone that has become full is sent, and leaves it', async () => {
  const before = (await kiln.entries()).length;
  await kiln.page.goto('/kilns/G2/draw');
  await kiln.inHand('CUP-1');
  await kiln.context.setOffline(true);
  await kiln.press('Good');
  await kiln.inHand('CUP-2');
  await kiln.press('Good');
  await kiln.inHand('CUP-3');
  await kiln.stands('2 entries waiting to be sent');
  await fillUp();
  await kiln.context.setOffline(false);
  await kiln.page.locator('.stands').getByText('waiting to be sent').waitFor({ state: 'detached' });
  expect(await inStore('outbox')).toBe(0);
  expect((await kiln.entries()).slice(before).map(({ name }) => name)).toEqual([
    'piece.graded',
    'piece.graded',
  ]);
}, 60_000);

test('a full phone says that the day’s work on it is of an earlier moment', async () => {
  await kiln.page.goto('/kilns');
  await kiln.page.getByText('G1').first().waitFor();
  await fillUp();
  await kiln.tell(order('piece.note', { piece: cup(4), note: 'a note of the laptop' }, '2026-05-22'));
  await kiln.stands(/no room for the day’s work: without the network it shows what it kept at/);
  await makeRoom();
  await kiln.tell(order('piece.note', { piece: cup(4), note: 'and another' }, '2026-05-22'));
  await kiln.page.locator('.stands').waitFor({ state: 'detached' });
}, 90_000);

test('cleared while the page was closed: it says how many are gone until that is seen', async () => {
  await kiln.page.goto(`/ware/${cup(3)}/grade`);
  await kiln.page.getByRole('heading', { level: 1 }).waitFor();
  await kiln.context.setOffline(true);
  await kiln.page.goto('/kilns/G2/draw');
  await kiln.inHand('CUP-3');
  await kiln.press('Good');
  await kiln.inHand('CUP-4');
  await kiln.stands('1 entry waiting to be sent');
  await kiln.page.goto('about:blank');
  await clear('indexeddb');
  await kiln.context.setOffline(false);
  await kiln.page.goto('/');
  await kiln.stands(
    /The browser has cleared what was kept here: 1 entry, the oldest from .*must be noted again/,
  );
  await kiln.page.reload();
  await kiln.stands(/The browser has cleared what was kept here: 1 entry/);
  await kiln.press('I have seen it');
  await kiln.page.locator('.stands').waitFor({ state: 'detached' });
  await kiln.page.reload();
  await kiln.page.getByText('Kilns to draw').waitFor();
  await kiln.page.goto('/unsent');
  await kiln.page.getByText('Nothing waits on this device').waitFor();
  await kiln.page.getByText('are kept on this device.').waitFor();
  expect(await kiln.page.getByText('has cleared').count()).toBe(0);
}, 90_000);

test('cleared under an open page: what waited is kept again, and sent once', async () => {
  const before = (await kiln.entries()).length;
  await kiln.page.goto('/kilns/G2/draw');
  await kiln.inHand('CUP-3');
  await kiln.context.setOffline(true);
  await kiln.press('Good');
  await kiln.inHand('CUP-4');
  await kiln.press('Fault', 'runs', 'foot', 'Second');
  await kiln.stands('2 entries waiting to be sent');
  await clear('indexeddb');
  await kiln.stands('2 entries were still on this screen and are kept again.');
  await kiln.stands('2 entries waiting to be sent');
  expect(await inStore('outbox')).toBe(2);
  await kiln.context.setOffline(false);
  await kiln.page.goto('/unsent');
  await kiln.page.getByText('Nothing waits on this device').waitFor();
  expect((await kiln.entries()).slice(before).map(({ name }) => name)).toEqual([
    'piece.graded',
    'fault.found',
    'piece.graded',
  ]);
}, 90_000);

test('cleared of everything: it is as on a first visit, and fetches the page and the day anew', async () => {
  await kiln.page.goto('about:blank');
  await clear('all');
  await kiln.page.goto('/unsent');
  await kiln.page.getByText('are kept on this device.').waitFor();
  await kiln.page.evaluate(() => navigator.serviceWorker.ready);
  await kiln.page.goto('about:blank');
  await clear('cache_storage');
  await kiln.page.goto('/');
  await kiln.page.getByText('Kilns to draw').waitFor();
  const page = () => kiln.page.evaluate(async () => (await caches.match('/index.html'))?.ok);
  await expect.poll(page, { timeout: 30_000 }).toBe(true);
  await kiln.cut();
  await kiln.page.goto('/kilns/G1/draw');
  await kiln.page.locator('.in-hand').waitFor();
  await kiln.studio.start();
}, 90_000);
