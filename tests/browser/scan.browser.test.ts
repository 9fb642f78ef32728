/** A label as it is printed, held in front of a real browser's camera, and photographed. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { lookAt, type Raster } from '../support/looked-at.ts';
import { openServed, type Served } from '../support/served.ts';
import { smallYard, type Yard } from '../support/small-yard.ts';

let served: Served;
let yard: Yard;
let browser: Browser;
let label: Raster;
const folder = mkdtempSync(join(tmpdir(), 'wareboard-film-'));
const film = join(folder, 'label.y4m');

/** What the camera sees: uncompressed grey, 4:2:0 (YUV4MPEG2 as mjpegtools' yuv4mpeg(5) lays it down, from memory). */
function filmOf({ width, height, pixels }: Raster): Buffer {
  const head = Buffer.from(`YUV4MPEG2 W${width} H${height} F10:1 Ip A1:1 C420jpeg\n`);
  const frame = Buffer.concat([
    Buffer.from('FRAME\n'),
    Buffer.from(pixels),
    Buffer.alloc((width * height) / 2, 128),
  ]);
  return Buffer.concat([head, frame, frame]);
}

beforeAll(async () => {
  served = await openServed();
  yard = await smallYard(served.host);
  const { pdf } = await served.host.paper('studio', 'labels', { pieces: yard.pieces.lamp! });
  // The first label of the sheet at ten points a millimetre: 640 by 480.
  label = lookAt(pdf).raster(0, 254, { x: 5, y: 10, width: 64, height: 48 });
  writeFileSync(film, filmOf(label));
  browser = await openBrowser([
    '--use-fake-ui-for-media-stream',
    '--use-fake-device-for-media-stream',
    `--use-file-for-fake-video-capture=${film}`,
  ]);
}, 90_000);
afterAll(async () => {
  await browser?.close();
  await served?.close();
  rmSync(folder, { recursive: true, force: true });
});

test('held in front of the camera, the label leads to its piece, and the camera is let go of', async () => {
  const { page, context, faults } = await openSeat(browser, served.address, { size: PHONE });
  await page.goto('/find');
  await page.getByRole('button', { name: 'Open the camera' }).click();
  await page.waitForURL(`**/ware/${yard.pieces.lamp}`);
  await page.getByRole('heading', { level: 1 }).getByText('altar lamp').waitFor();
  expect(await page.locator('video').count()).toBe(0);
  expect(faults).toEqual([]);
  await context.close();
});

test('photographed aslant and a little blurred, it is read too', async () => {
  const { page, context, faults } = await openSeat(browser, served.address, { size: PHONE });
  const { width, height, pixels } = label;
  const photograph = await sharp(pixels, { raw: { width, height, channels: 1 } })
    .resize(1600)
    .rotate(7, { background: '#cbb' })
    .blur(2)
    .jpeg({ quality: 70 })
    .toBuffer();
  await page.goto('/find');
  await page
    .getByLabel('Take a photograph of the label')
    .setInputFiles({ name: 'IMG_7.jpg', mimeType: 'image/jpeg', buffer: photograph });
  await page.waitForURL(`**/ware/${yard.pieces.lamp}`);
  expect(faults).toEqual([]);
  await context.close();
});

test('a photograph without a label is said to hold none', async () => {
  const { page, context } = await openSeat(browser, served.address, { size: PHONE });
  await page.goto('/find');
  const plain = await sharp({ create: { width: 800, height: 600, channels: 3, background: '#987' } })
    .jpeg()
    .toBuffer();
  await page
    .getByLabel('Take a photograph of the label')
    .setInputFiles({ name: 'IMG_8.jpg', mimeType: 'image/jpeg', buffer: plain });
  await page.getByText('No label could be read in this photograph').waitFor();
  await context.close();
});
