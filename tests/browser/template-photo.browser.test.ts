/** From a made-up photo (tests/plugins/template-sheets/photo.ts) to a kept template, by finger and by keyboard. */
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Point } from '../../plugins/template-sheets/piece.ts';
import { boxOf } from '../../plugins/template-sheets/shape/measure.ts';
import { pointsMoved, shift } from '../../plugins/template-sheets/shape/move.ts';
import { made, pieceOf } from '../plugins/template-sheets/made.ts';
import { apart, corners, photo, pocket } from '../plugins/template-sheets/photo.ts';
import { violations } from '../support/axe.ts';
import { LAPTOP, openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { openServed, type Served } from '../support/served.ts';

let served: Served;
let browser: Browser;
let picture: Buffer;

beforeAll(async () => {
  const { width, height, shades } = photo(7);
  const raw = Buffer.from(Uint8Array.from(shades, Math.round));
  [served, browser, picture] = await Promise.all([
    openServed(),
    openBrowser(),
    sharp(raw, { raw: { width, height, channels: 1 } })
      .png()
      .toBuffer(),
  ]);
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

async function withPhoto(size: typeof PHONE | typeof LAPTOP) {
  const { page, faults } = await openSeat(browser, served.address, { size });
  page.setDefaultTimeout(30_000);
  await page.goto('/templates');
  await page.getByLabel('From').selectOption('scan');
  const file = { name: 'pocket.png', mimeType: 'image/png', buffer: picture };
  await page.getByLabel('Photo or scan').last().setInputFiles(file);
  await page.getByRole('button', { name: /^(Corner|Point) 1: .* not marked yet$/ }).waitFor();
  expect(await violations(page)).toEqual([]);
  return { page, faults };
}

/** Where the mark stands, as it is told. */
async function told(page: Page, what: string): Promise<Point> {
  const name = await page.getByRole('button', { name: new RegExp(`^${what}: `) }).getAttribute('aria-label');
  const [, x, y] = /(\d+) across, (\d+) down/.exec(name!)!;
  return [Number(x), Number(y)];
}

/** Tabs to the mark and leads it to the place with the arrow keys. */
async function lead(page: Page, what: string, [x, y]: Point) {
  const at = await told(page, what);
  for (const [by, less, more] of [
    [x - at[0], 'ArrowLeft', 'ArrowRight'],
    [y - at[1], 'ArrowUp', 'ArrowDown'],
  ] as const) {
    const key = by < 0 ? less : more;
    for (let tens = Math.floor(Math.abs(by) / 10); tens > 0; tens--)
      await page.keyboard.press(`Shift+${key}`);
    for (let ones = Math.abs(by) % 10; ones > 0; ones--) await page.keyboard.press(key);
  }
  expect(await told(page, what)).toEqual([x, y]);
}

const atHome = (outline: readonly Point[]): Point[] => {
  const box = boxOf(outline);
  return pointsMoved(outline, shift(-box.left, -box.top));
};

async function keptOutline(page: Page, template: string): Promise<readonly Point[]> {
  const answer = await page.request.get(`/api/reports/template-sheets/template?template=${template}`);
  return atHome(pieceOf(made((await answer.json()).more.spec), 'front').outline);
}

test('by finger: corners tapped and nudged, traced, named and kept', async () => {
  const { page, faults } = await withPhoto(PHONE);
  await page.getByLabel('Of known size beside it').selectOption('sheet');
  await page.getByLabel('From the first corner to the second, mm').fill('148');
  await page.getByLabel('From the second corner to the third, mm').fill('210');
  const board = page.locator('.mark-board > canvas').first();
  const box = (await board.boundingBox())!;
  const scale = box.width / 1150;
  for (const [x, y] of corners) await board.tap({ position: { x: x * scale, y: y * scale } });
  await page.getByText('All are marked.').waitFor();
  for (const [nth, [x, y]] of corners.entries()) {
    const what = `Corner ${nth + 1}`;
    // A tap is as near as a finger comes; the keys below the picture do the rest.
    const [dx, dy] = [x - (await told(page, what))[0], y - (await told(page, what))[1]];
    expect(Math.hypot(dx, dy)).toBeLessThan(8);
    await page.getByRole('button', { name: new RegExp(`^${what}: `) }).focus();
    for (const [by, less, more] of [
      [dx, 'Left', 'Right'],
      [dy, 'Up', 'Down'],
    ] as const)
      for (let step = Math.abs(by); step > 0; step--)
        await page.getByRole('button', { name: by < 0 ? less : more, exact: true }).tap();
    expect(await told(page, what)).toEqual([x, y]);
  }
  await page.getByRole('button', { name: 'Trace the pieces' }).tap();
  await page.getByText('Names of the pieces: 1 piece').tap();
  await page.getByLabel('Piece 1, its name').fill('front');
  await page.getByText(/front: 12[56] by 17[23] mm/).waitFor();
  expect(
    await page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth),
  ).toBe(true);
  await page.getByLabel('Name', { exact: true }).fill('Pocket by finger');
  await page.getByRole('button', { name: 'Keep it' }).tap();
  await page.getByRole('link', { name: 'Pocket by finger on A4, as a PDF' }).waitFor();
  expect(apart(await keptOutline(page, 'pocket-by-finger'), atHome(pocket))).toBeLessThan(1);
  expect(faults).toEqual([]);
});

test('by keyboard alone: tab from mark to mark, arrows move it, and where it stands is told', async () => {
  const { page, faults } = await withPhoto(LAPTOP);
  await page.getByLabel('Of known size beside it').selectOption('sheet');
  await page.getByRole('button', { name: /^Corner 1: / }).focus();
  for (const [nth, corner] of corners.entries()) {
    if (nth > 0) await page.keyboard.press('Tab');
    await lead(page, `Corner ${nth + 1}`, corner);
    await page
      .locator('[aria-live]', { hasText: `Corner ${nth + 1}: ${corner[0]} across, ${corner[1]} down` })
      .waitFor({ state: 'attached' });
  }
  await page.getByRole('button', { name: 'Trace the pieces' }).press('Enter');
  await page.getByText('Names of the pieces: 1 piece').press('Enter');
  await page.getByLabel('Piece 1, its name').fill('front');
  await page.getByLabel('Name', { exact: true }).fill('Pocket by keyboard');
  await page.getByRole('button', { name: 'Keep it' }).press('Enter');
  await page.getByRole('link', { name: 'Pocket by keyboard on A4, as a PDF' }).waitFor();
  expect(apart(await keptOutline(page, 'pocket-by-keyboard'), atHome(pocket))).toBeLessThan(1);
  expect(faults).toEqual([]);
});

test('dragged by the rim of a mark, the point goes with the finger and does not jump to it', async () => {
  const { page } = await withPhoto(LAPTOP);
  const mark = page.getByRole('button', { name: /^Corner 1: / });
  const before = await told(page, 'Corner 1');
  await mark.scrollIntoViewIfNeeded();
  const box = (await mark.boundingBox())!;
  const scale = (await page.locator('.mark-board > canvas').first().boundingBox())!.width / 1150;
  const [x, y] = [box.x + 8, box.y + 40];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 50 * scale, y + 30 * scale, { steps: 4 });
  await page.mouse.up();
  const after = await told(page, 'Corner 1');
  expect(Math.hypot(after[0] - before[0] - 50, after[1] - before[1] - 30)).toBeLessThan(3);
});

test('two points and their distance measure a picture from straight above; what cannot be is said', async () => {
  const { page, faults } = await withPhoto(LAPTOP);
  await page.getByLabel('Of known size beside it').selectOption('points');
  await page.getByLabel('From point to point, mm').fill('0');
  for (const nth of [1, 2]) {
    await page.getByRole('button', { name: new RegExp(`^Point ${nth}: `) }).focus();
    await page.keyboard.press('ArrowLeft');
  }
  await page.getByRole('button', { name: 'Trace the pieces' }).click();
  await page.getByText('The two points should lie well apart, with a distance of more than 0 mm').waitFor();
  await page.getByLabel('From point to point, mm').fill('200');
  await page.getByRole('button', { name: 'Trace the pieces' }).click();
  // The sheet of known size is a piece here, and can be taken out.
  await page.getByText('Names of the pieces: 2 pieces').click();
  await page.getByRole('button', { name: 'Take out the piece piece 1' }).click();
  await page.getByText('Names of the pieces: 1 piece').waitFor();

  const broken = { name: 'pocket.png', mimeType: 'image/png', buffer: Buffer.from('no picture') };
  await page.getByLabel('Photo or scan').last().setInputFiles(broken);
  await page.getByText('pocket.png is no picture that can be read here').waitFor();
  expect(faults).toEqual([]);
});
