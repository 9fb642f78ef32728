/** Pictures on a phone that the network does not reach: those of the ware in the kiln, and those that wait to be sent. */
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BEAKERS, beaker, FarKiln, order } from '../support/far-kiln.ts';
import { photograph } from '../support/photographs.ts';

const kiln = new FarKiln();
beforeAll(() => kiln.open(), 180_000);
afterAll(() => kiln.close());

/** A picture of it, sent up from the laptop. */
async function attach(piece: string): Promise<void> {
  const body = await photograph(900, 700);
  const sha256 = createHash('sha256').update(body).digest('hex');
  const sent = await fetch(`${kiln.studio.address}/api/files/${sha256}`, {
    method: 'PUT',
    headers: { 'content-type': 'image/jpeg' },
    body,
  });
  const picture = (await sent.json()) as object;
  await kiln.tell(order('file.attach', { to: `piece:${piece}`, ...picture }, '2026-05-19'));
}

/** Small pictures that the phone has put by. */
const smallsKept = () =>
  kiln.page.evaluate(
    () =>
      new Promise<number>((tell) => {
        const opening = indexedDB.open('wareboard');
        opening.onsuccess = () => {
          const counting = opening.result.transaction('smalls').objectStore('smalls').count();
          counting.onsuccess = () => {
            opening.result.close();
            tell(counting.result);
          };
        };
      }),
  );

const address = (of: string) => expect.poll(() => kiln.page.locator(of).getAttribute('src'));
const width = (of: string) =>
  expect.poll(() => kiln.page.locator(of).evaluate((img: HTMLImageElement) => img.naturalWidth));

test('the piece in the hand is known by its picture, with the network and without', async () => {
  await attach(beaker(1));
  await kiln.firstVisit();
  await kiln.page.goto('/kilns/G1/draw');
  await kiln.inHand('BEAK-1');
  await address('.in-hand .thumb img').toMatch(/^\/api\/files/);
  await expect.poll(smallsKept, { timeout: 20_000 }).toBe(1);

  await kiln.cut();
  await kiln.page.close();
  await kiln.openPage('/kilns/G1/draw');
  await kiln.inHand('BEAK-1');
  await address('.in-hand .thumb img').toMatch(/^blob:/);
  await width('.in-hand .thumb img').toBe(480);
  await kiln.press(/^Look at it larger: beaker/);
  await width('dialog img').toBe(480);
  await kiln.page.keyboard.press('Escape');
  // One without a picture is drawn in outline.
  await kiln.press('Good');
  await kiln.inHand('BEAK-2');
  await kiln.page.locator('.in-hand .pot').waitFor();
  expect(kiln.faults).toEqual([]);
}, 90_000);

test('one that was taken offline is still to be seen when the tab was closed, and goes up with its entry', async () => {
  await kiln.page.goto(`/ware/${beaker(BEAKERS)}`);
  await kiln.page.getByRole('heading', { level: 1 }).waitFor();
  await kiln.page.locator('.take input[capture]').setInputFiles({
    name: 'IMG_1.jpg',
    mimeType: 'image/jpeg',
    buffer: Buffer.from(await photograph(640, 480)),
  });
  await kiln.stands('2 entries waiting to be sent');
  await kiln.page.close();
  await kiln.openPage(`/ware/${beaker(BEAKERS)}`);
  await address('.pictures .thumb img').toMatch(/^blob:/);
  await width('.pictures .thumb img').toBe(640);
  await kiln.press(/^Look at it larger/);
  await width('dialog img').toBe(640);
  await kiln.page.keyboard.press('Escape');

  await kiln.studio.start();
  await kiln.context.setOffline(false);
  await kiln.page.goto('/unsent');
  await kiln.page.getByText('Nothing waits on this device').waitFor();
  const { name, data } = (await kiln.entries()).at(-1)!;
  expect(name).toBe('file.attached');
  const { sha256 } = data as { sha256: string };
  expect((await fetch(`${kiln.studio.address}/api/files/${sha256}`)).status).toBe(200);
  expect(kiln.faults).toEqual([]);
}, 60_000);
