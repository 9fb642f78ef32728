/** From a table of thirty orders to thirty parcels, their labels and numbers; one lost and sent again. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { checkDigit } from '../../plugins/shop-orders/post/s10.ts';
import { violations } from '../support/axe.ts';
import { LAPTOP, openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { lookAt } from '../support/looked-at.ts';
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

/* Invented buyers in several scripts, at addresses that cannot exist. */
const BUYERS = [
  ['Isolde Farthingdown', '1 Nowhere Lane|Farthing', 'ZZ1 1ZZ', 'GB'],
  ['Øyvind Ingenstad', 'Ingenvei 0', '0000', 'NO'],
  ['窯田 しのぶ', '東京都架空区1-2-3', '000-0000', 'JP'],
  ['سلمى الخيالية', 'شارع العدم ٠', '00000', 'EG'],
  ['Ζωή Ανύπαρκτη', 'Οδός Πουθενά 0', '000 00', 'GR'],
  ['Odalys Quimera', 'Calle Ninguna 0|Piso X', '00000', 'ES'],
] as const;
const ITEMS = [
  ['House Lantern template', '6.50'],
  ['Hedgerow stamp set', '18.00'],
] as const;

const CSV = [
  'order,placed,promise,customer,email,address,postcode,country,item,quantity,price,currency',
  ...Array.from({ length: 30 }, (_, n) => {
    const [name, address, postcode, country] = BUYERS[n % BUYERS.length]!;
    const [item, price] = ITEMS[n % ITEMS.length]!;
    const number = 1001 + n;
    return `${number},2026-05-0${1 + (n % 5)},2026-06-1${n % 3},${name} ${n},buyer${n}@example.invalid,${address},${postcode},${country},${item},1,${price},GBP`;
  }),
].join('\r\n');

/** An item number of UPU S10 with its check digit. */
const itemNumber = (n: number): string => {
  const serial = String(40_000_000 + n);
  return `LX${serial}${checkDigit(serial)}GB`;
};

const shown = (text: string | RegExp) => page.getByText(text).first().waitFor();

test('thirty orders come in from a table', async () => {
  await page.goto('/post/import');
  await page
    .getByLabel('Choose the file')
    .setInputFiles({ name: 'orders.csv', mimeType: 'text/csv', buffer: Buffer.from(CSV) });
  await page.getByRole('button', { name: /^Record \d+ entries$/ }).click();
  await shown('The import is done');
  await page.getByRole('link', { name: 'See what is to be packed' }).click();
  await page.getByRole('heading', { name: 'To pack' }).waitFor();
  await expect.poll(() => page.locator('.pack-list > li').count(), { timeout: 15_000 }).toBe(30);
});

test('nothing can be packed before somebody has counted the stock', async () => {
  expect(await page.getByRole('button', { name: /^Pack \d+ order/ }).count()).toBe(0);
  for (const [name] of ITEMS) {
    await page.goto('/post/items');
    await page.getByRole('link', { name }).click();
    await page.getByRole('spinbutton', { name: 'There are' }).fill('20');
    await page.getByRole('button', { name: 'Record the count' }).click();
    await shown('Stock counted');
  }
});

test('all thirty are packed at once, and what was taken is gone from the shelf', async () => {
  await page.goto('/post');
  await page.getByRole('button', { name: 'Pack 30 orders' }).click();
  await shown('30 parcels packed');
  await page.getByRole('heading', { name: 'Packed, to be posted' }).waitFor();
  await page.goto('/post/items');
  await expect.poll(() => page.getByText('5', { exact: true }).count(), { timeout: 15_000 }).toBe(2);
});

test('their labels are one file with every address on it', async () => {
  await page.goto('/post/posting');
  const link = page.getByRole('link', { name: 'Address labels of all' }).first();
  const answer = await page.request.get((await link.getAttribute('href'))!);
  expect(answer.headers()['content-type']).toContain('application/pdf');
  const paper = lookAt(await answer.body());
  const text = Array.from({ length: paper.pages }, (_, n) => paper.text(n)).join('\n');
  expect(text.match(/Farthingdown/g)).toHaveLength(5);
  expect(text).toContain('JAPAN');
  expect(text).toContain('東京都架空区');
});

test.each([
  ['/post', 'Packed, to be posted'],
  ['/post/labels', 'First free label'],
  ['/post/tariff', 'One more row'],
  ['/post/shop', 'Add packaging'],
  ['/settings/by-itself', 'Fetch orders from the shop'],
  ['/post/posting', 'Note what was posted'],
  ['/post/orders/shop/1004', 'What was ordered'],
  ['/post/items/hedgerow-stamp-set', 'In stock'],
])('%s can be used without eyes or a mouse, by night as well', async (path, filled) => {
  for (const seat of [{ size: PHONE }, { size: LAPTOP, light: 'dark' }] as const) {
    const { context, page: other } = await openSeat(browser, served.address, seat);
    await other.goto(path);
    await other.getByText(filled).first().waitFor();
    expect(await violations(other)).toEqual([]);
    await context.close();
  }
});

test('numbers are typed one after the other, and a wrong digit is caught', async () => {
  const numbers = page.getByRole('textbox', { name: /Number on the receipt/ });
  const [right] = [itemNumber(0)];
  const wrong = `${right.slice(0, 9)}${String((Number(right[9]) + 1) % 10)}${right.slice(10)}`;
  await numbers.first().fill(wrong);
  await numbers.first().press('Enter');
  await page.locator('.wrong').first().waitFor();
  for (let n = 0; n < 30; n += 1) {
    await numbers.first().fill(itemNumber(n));
    await numbers.first().press('Enter');
    await expect.poll(() => numbers.count(), { timeout: 15_000 }).toBe(29 - n);
  }
  await shown('No parcel waits to be posted.');
});

test('one is lost and sent again; the other twenty-nine are on the way', async () => {
  await page.goto('/post/orders/shop/1004');
  await page.getByRole('link', { name: 'in the post' }).click();
  await page.getByText('It is lost').click();
  await page.getByRole('button', { name: 'Note it as lost' }).click();
  await page.getByRole('button', { name: 'Send again for order 1004' }).click();
  await page.getByRole('button', { name: 'Pack it' }).click();
  await page.getByRole('heading', { name: 'Note that it was posted' }).waitFor();
  await page.getByRole('textbox', { name: /Number on the receipt/ }).fill(itemNumber(99));
  await page.getByRole('button', { name: 'It has been posted' }).click();
  await page.getByRole('button', { name: 'It has come' }).waitFor();
  await page.goto('/post');
  await shown('30 other parcels are on the way.');
  expect(faults).toEqual([]);
});
