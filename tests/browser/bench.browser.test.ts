/** At the kiln with a wet hand, in the past, and on paper. */
import { readFile } from 'node:fs/promises';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { LAPTOP, openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { openServed, type Served } from '../support/served.ts';
import { smallYard, type Yard } from '../support/small-yard.ts';

let served: Served;
let browser: Browser;
let yard: Yard;
let page: Page;
let faults: string[];

beforeAll(async () => {
  [served, browser] = await Promise.all([openServed(), openBrowser()]);
  yard = await smallYard(served.host, 2);
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

const sit = async (size: typeof PHONE | typeof LAPTOP) => {
  ({ page, faults } = await openSeat(browser, served.address, { size }));
  page.setDefaultTimeout(30_000);
};

beforeEach(() => sit(PHONE));
afterEach(async () => {
  await page.context().close();
  expect(faults).toEqual([]);
});

const box = async (target: Locator) => (await target.boundingBox())!;

test('opening the kiln is told with its care first', async () => {
  await page.goto(`/kilns/${yard.firings.toDraw}`);
  await page.getByText('Isolate the kiln from its supply first').waitFor();
  const care = await box(page.getByText('Isolate the kiln from its supply first'));
  const draw = await box(page.getByRole('link', { name: 'Draw the kiln' }));
  expect(care.y).toBeLessThan(draw.y);
});

test('a pot’s zone is picked on its drawing, or as a word, and both say the same', async () => {
  await page.goto(`/ware/${yard.pieces.plates}/glaze`);
  const zone = (name: string) =>
    page.getByRole('group', { name: 'Zone' }).getByRole('radio', { name, exact: true });
  await zone('rim').check();
  expect(await page.locator('.pot .chosen').getAttribute('data-zone')).toBe('rim');
  // On the handle's own line, at the right of the pot.
  const pot = await box(page.locator('.pot.picks'));
  await page.mouse.click(pot.x + pot.width * (181 / 200), pot.y + pot.height * (108 / 210));
  expect(await zone('handle').isChecked()).toBe(true);
});

test('a piece can be seen as it was; nothing can be recorded in the past', async () => {
  await page.goto(`/ware/${yard.pieces.jug}?as-at=2026-11-07`);
  await page.getByText('You are looking at the past: what had happened by 7 Nov 2026').waitFor();
  await page.getByText('Begun: 1 × faceted jug').waitFor();
  expect(await page.getByText('Kiln lit').count()).toBe(0);
  expect(await page.locator('.next').count()).toBe(0);
  expect(await page.getByText('Strike out').count()).toBe(0);
  await page.getByRole('link', { name: 'Back to now' }).click();
  await page.getByText('Kiln lit').first().waitFor();
});

test('on paper a story has the studio’s name and the day, and no places to go', async () => {
  await page.context().close();
  await sit(LAPTOP);
  await page.goto(`/ware/${yard.pieces.jug}`);
  await page.getByText('Kiln lit').first().waitFor();
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  expect(await page.getByRole('navigation').first().isVisible()).toBe(false);
  expect(await page.locator('.next').isVisible()).toBe(false);
  expect(await page.locator('.strike').first().isVisible()).toBe(false);
  expect(await page.locator('.on-paper').textContent()).toMatch(
    /^Hollin Yard Pottery Printed \d+ \w+ \d{4}$/,
  );
  const ink = await page.evaluate(() => {
    const { color, backgroundColor } = getComputedStyle(document.documentElement);
    return [color, backgroundColor];
  });
  expect(ink).toEqual(['rgb(0, 0, 0)', 'rgb(255, 255, 255)']);
  const pdf = await page.pdf({ format: 'A4' });
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
});

test('the numbers of a report can be taken away as a table file', async () => {
  await page.goto('/review/seconds-tally/by-glaze');
  const taken = page.waitForEvent('download');
  await page.getByRole('link', { name: 'As a table file (CSV)' }).click();
  const file = await taken;
  expect(file.suggestedFilename()).toBe('seconds-tally-by-glaze.csv');
  const text = await readFile(await file.path(), 'utf8');
  expect(text).toContain('Cuttle White');
  expect(page.url()).toContain('/review/seconds-tally/by-glaze');
});
