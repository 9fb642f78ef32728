import { PDFDocument } from 'pdf-lib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { JUG_WITH_HANDLE } from '../support/faceted-jug.ts';
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

const narrowEnough = () =>
  page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth);

test('a pot is measured, seen, kept and printed; what cannot be is said at once', async () => {
  await page.goto('/templates');
  await page.getByLabel('Name').fill('Tea Beaker');
  await page.getByLabel('Form').selectOption('cylinder');
  await page.getByLabel('Diameter, mm').fill('0.01');
  await page.getByText('“diameter” is 0.01; it should be a number of mm from 5 to 2000.').waitFor();
  await page.getByLabel('Diameter, mm').fill('90');
  await page.getByRole('img', { name: 'In the round' }).waitFor();
  await page.getByText('wall: 267 by 175 mm').waitFor();
  expect(await narrowEnough()).toBe(true);

  await page.getByRole('button', { name: 'Keep it' }).click();
  const pdf = page.getByRole('link', { name: 'Tea Beaker on A4, as a PDF' });
  await pdf.waitFor();
  const address = (await pdf.getAttribute('href'))!;
  const file = await page.request.get(address);
  expect(file.status()).toBe(200);
  expect((await file.body()).subarray(0, 5).toString()).toBe('%PDF-');
  expect(faults).toEqual([]);
});

test('a drawing comes in, and what was left out of it is named', async () => {
  await page.goto('/templates');
  await page.getByLabel('From').selectOption('svg');
  const buffer = Buffer.from(
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="60mm" viewBox="0 0 100 60"><title>Wall Pocket</title><rect id="back" width="90" height="50"/><script>1</script></svg>',
  );
  await page.getByLabel('SVG file').setInputFiles({ name: 'pocket.svg', mimeType: 'image/svg+xml', buffer });
  await page.getByText('back: 90 by 50 mm').waitFor();
  await page.getByText('scripts are never run').waitFor();
  expect(await page.getByLabel('Name').inputValue()).toBe('Wall Pocket');
  await page.getByRole('button', { name: 'Keep it' }).click();
  await page.getByRole('link', { name: 'Wall Pocket on A4, as a PDF' }).waitFor();
  expect(faults).toEqual([]);
});

test('a kept template shows all of itself, and a change of one measure changes nothing else', async () => {
  const whole = {
    ...JUG_WITH_HANDLE,
    sizes: [
      { name: 'small', scale: 0.8 },
      { name: 'large', scale: 1 },
    ],
    nested: true,
  };
  const words = { licence: 'For pots that you make yourself.', howTo: 'Score the folds from the inside.' };
  const input = { name: 'Faceted Jug', spec: { ...whole, shrinkage: 0.115 }, ...words };
  await served.host.record({ id: 'jug-1', command: 'template.draw', input, who: 'maker', device: 'bench' });
  await page.goto('/templates');
  await page.getByRole('button', { name: 'Change Faceted Jug' }).click();
  const heading = page.getByRole('heading', { name: 'Change Faceted Jug' });
  await heading.waitFor();
  expect(await heading.evaluate((it) => it === document.activeElement)).toBe(true);
  await page.getByText('Handle: 190 by 34 mm').click();
  expect(await page.getByLabel('Width at the other end, mm').inputValue()).toBe('22');
  await page.getByText('Words for the buyer: licence, how to use it').click();
  expect(await page.getByLabel('What the buyer may do with it').inputValue()).toBe(words.licence);
  expect(await page.getByLabel('How to use it', { exact: false }).last().inputValue()).toBe(words.howTo);
  await page.getByText('Sizes of a set: small, large').click();
  expect(await page.getByLabel('Size 1, % of the measures').inputValue()).toBe('80');
  expect(await page.getByLabel('Shrinkage, %').inputValue()).toBe('11.5');
  await page.getByLabel('Height, mm').fill('200');
  expect(await narrowEnough()).toBe(true);
  await page.getByRole('button', { name: 'Keep the change' }).click();
  await page.getByText('version 2').waitFor();
  const pages = async (href: string | null) =>
    (await PDFDocument.load(await (await page.request.get(href!)).body())).getPageCount();
  const pdf = page.getByRole('link', { name: 'Faceted Jug on A4, as a PDF' });
  const nested = await pages(await pdf.getAttribute('href'));
  await page.getByLabel('The sizes on paper: Faceted Jug').selectOption('each on its own sheets');
  expect(await pages(await pdf.getAttribute('href'))).toBeGreaterThan(nested);
  const answer = await page.request.get('/api/reports/template-sheets/template?template=faceted-jug');
  expect((await answer.json()).more).toMatchObject({
    spec: { ...whole, name: 'Faceted Jug', shrinkage: 0.115, height: 200 },
    ...words,
  });
  expect(faults).toEqual([]);
});

test('a roll is as wide as the buyer’s', async () => {
  await page.goto('/templates');
  await page.getByLabel('Paper', { exact: true }).selectOption({ label: 'a roll' });
  await page.getByLabel('Width of the roll, mm', { exact: true }).fill('150');
  await page.getByText('“Paper” is “roll 150”').waitFor();
  await page.getByLabel('Width of the roll, mm', { exact: true }).fill('420');
  await page.getByText('1 sheet of Roll 420 mm').waitFor();
});
