import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { openServed, type Served } from '../support/served.ts';

let served: Served;
let browser: Browser;
let page: Page;
let faults: string[];

beforeAll(async () => {
  [served, browser] = await Promise.all([openServed(), openBrowser()]);
  ({ page, faults } = await openSeat(browser, served.address, { size: PHONE }));
  page.setDefaultTimeout(30_000);
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

/* A heading of the potter's own, a day that is not, and a lot of mixed grades. */
const NOTEBOOK = [
  'made;count;form;clay;Glazed with;glaze_firing;glaze_fired;kiln;faults;grade',
  '2026-03-02;12;tile;Fell White;inside: Gannet Grey;Glaze, March;2026-03-20;Big Round;pinholes@inside x3;first 9, second 2, waster 1',
  '31/02/2026;1;jug;Fell White;outside: Marram Green;Glaze, March;2026-03-20;Big Round;;first',
  '2026-03-04;4;beaker;Otterfold Buff;outside: Marram Green x2;Glaze, March;2026-03-20;Big Round;;first',
].join('\r\n');

const choose = () =>
  page
    .getByLabel('Choose the file')
    .setInputFiles({ name: 'notebook.csv', mimeType: 'text/csv', buffer: Buffer.from(`\ufeff${NOTEBOOK}`) });
const recordButton = () => page.getByRole('button', { name: /^Record \d+ entries$/ });
const entriesNow = async () => (await served.host.log.head()).count;

test('a notebook is read before anything is recorded, its bad row named, its headings matched, and then it is recorded once', async () => {
  await page.goto('/import');
  await choose();

  // Row by row, what would be recorded; nothing has been.
  await page.getByRole('heading', { name: 'What would be recorded' }).waitFor();
  expect(await entriesNow()).toBe(0);
  const bad = page.locator('.bad-rows li');
  expect(await bad.count()).toBe(1);
  const badText = await bad.textContent();
  expect(badText).toContain('Line 3');
  expect(badText).toContain('made');
  expect(badText).toContain('31/02/2026');

  // Its own heading is matched to ours, and the glazes are understood.
  expect(await page.locator('main').textContent()).not.toContain('Gannet Grey');
  await page.getByLabel('Glazed with').selectOption({ value: 'glazes' });
  await page.getByRole('button', { name: 'Read it again with these headings' }).click();
  await page.getByText('Gannet Grey').first().waitFor();
  expect(await entriesNow()).toBe(0);
  const narrow = await page.evaluate(
    () => document.documentElement.scrollWidth <= document.documentElement.clientWidth,
  );
  expect(narrow).toBe(true);

  await recordButton().click();
  await page.getByText('The import is done').first().waitFor();
  expect(await entriesNow()).toBeGreaterThan(0);

  await page.getByRole('link', { name: 'See the ware' }).click();
  await page.getByText('4 × beaker').first().waitFor();
  await page.goto('/review/seconds-tally/by-glaze');
  await page.getByText('2 seconds and 1 waster of 16 graded pieces').waitFor();

  // The same file again: the headings are remembered, and nothing is recorded twice.
  const before = await entriesNow();
  await page.goto('/import');
  await choose();
  await page.getByText('Nothing new would be recorded').first().waitFor();
  expect(await recordButton().count()).toBe(0);
  expect(await entriesNow()).toBe(before);
  expect(faults).toEqual([]);
}, 90_000);

test('a file that is no notebook is refused in a sentence, and another can be chosen at once', async () => {
  await page.goto('/import');
  await page.getByLabel('Choose the file').setInputFiles({
    name: 'jug.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 0xff, 0xfe, 0]),
  });
  await page.getByRole('alert').or(page.locator('.bad-rows')).first().waitFor();
  expect(await recordButton().count()).toBe(0);
  expect(await page.locator('main').textContent()).toMatch(/Nothing was recorded|Nothing can be recorded/);
});
