/** From a template to a file in the buyer's hands, in a real browser; the buyer has one of their own. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { aPdf } from '../support/a-pdf.ts';
import { violations } from '../support/axe.ts';
import { LAPTOP, openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { lookAt } from '../support/looked-at.ts';
import { openServed, type Served } from '../support/served.ts';

let served: Served;
let browser: Browser;
let page: Page;
let faults: string[];

const note = async (id: string, command: string, input: object) => {
  const outcome = await served.host.record({ id, command, input, who: 'maker', device: 'bench' });
  if (outcome.outcome === 'refused') throw new Error(outcome.refusal.sentence);
};

beforeAll(async () => {
  [served, browser] = await Promise.all([openServed(), openBrowser()]);
  ({ page, faults } = await openSeat(browser, served.address, { size: LAPTOP }));
  page.setDefaultTimeout(30_000);
  await note('jug', 'template.draw', {
    name: 'Faceted Jug',
    spec: { form: 'polygon', sides: 6, bottomSide: 40, topSide: 30, height: 90 },
    licence: 'For pots that you make yourself.',
  });
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

const ORDER = {
  number: '7',
  buyer: 'buyer-7',
  name: 'Isolde Farthingdown',
  email: 'isolde@example.org',
  country: 'GB',
  lines: [
    { item: 'Faceted Jug file', quantity: 1 },
    { item: 'Wall Pocket file', quantity: 1 },
  ],
};

test('an item is given its template, another one its PDF, and a newer one in its place', async () => {
  await page.goto('/post/items');
  await page.getByLabel('Name').fill('Faceted Jug file');
  await page.getByLabel('What it is').selectOption('download');
  await page.getByLabel('Template it comes from').selectOption({ label: 'Faceted Jug' });
  await page.getByRole('button', { name: 'Add it' }).click();
  await page.getByRole('link', { name: 'Faceted Jug file' }).click();
  await page.getByText('It is drawn from the template').waitFor();
  expect(await page.getByRole('link', { name: 'Faceted Jug', exact: true }).getAttribute('href')).toBe(
    '/templates#faceted-jug',
  );

  await note('pocket', 'item.add', { name: 'Wall Pocket file', kind: 'download' });
  await page.goto('/post/items/wall-pocket-file');
  const take = (name: string, buffer: Buffer) =>
    page
      .getByLabel(/A PDF from this device|A newer PDF in its place/)
      .setInputFiles({ name, mimeType: 'application/pdf', buffer });
  await take('pocket.pdf', Buffer.from('not a PDF at all'));
  await page.getByText('This file is not a PDF, or it breaks off.').waitFor();
  await take('pocket.pdf', Buffer.from(aPdf('Wall Pocket')));
  await page.getByRole('link', { name: 'pocket.pdf' }).waitFor();
  await take('pocket 2.pdf', Buffer.from(aPdf('Wall Pocket, wider')));
  await page.getByRole('link', { name: 'pocket 2.pdf' }).waitFor();
  await page.getByText('It was given the file pocket.pdf').waitFor();
  expect(faults).toEqual([]);
});

test('a buyer fetches what they ordered on their own paper, and no more often than they may', async () => {
  await note('order-7', 'order.place', ORDER);
  await page.goto('/post/orders/shop/7');
  const jug = page.getByRole('listitem').filter({ hasText: 'Faceted Jug file' }).first();
  await jug.getByText('Make a link').click();
  await jug.getByRole('spinbutton').fill('1');
  await jug.getByRole('button', { name: 'Make the link' }).click();
  const address = await jug.getByLabel('Address to send to the buyer').inputValue();
  expect(address).toContain(`${served.address}/fetch/shop-orders/download/`);
  await jug.getByText('Nobody outside can open this link').waitFor();

  await page.locator('summary', { hasText: 'Write to the buyer' }).click();
  await page.getByText('Here is the file').click();
  const message = page.getByRole('textbox', { name: 'Message' });
  await message.waitFor();
  expect(await message.inputValue()).toContain(address);
  expect(await message.inputValue()).toMatch(/It can be fetched once, until \d+ \w+ \d{4}\./);

  const buyer = await openSeat(browser, served.address, { size: PHONE });
  buyer.page.setDefaultTimeout(30_000);
  await buyer.page.goto(address);
  await buyer.page.reload();
  await buyer.page.getByText('It can be fetched once more').waitFor();
  await buyer.page.getByLabel('Paper that you print on').selectOption('Letter');
  const fetched = buyer.page.waitForEvent('download');
  await buyer.page.getByRole('button', { name: 'Fetch the PDF' }).click();
  const file = await fetched;
  expect(file.suggestedFilename()).toBe('Faceted Jug file 7.pdf');
  const pdf = lookAt(readFileSync(await file.path()));
  expect(pdf.size(0).width).toBeCloseTo(215.9, 1);
  expect(pdf.text(0)).toMatch(/\b7\b/);
  expect(pdf.text(0)).toContain('For pots that you make yourself.');

  await buyer.page.getByRole('button', { name: 'Fetch the PDF' }).click();
  await buyer.page.getByText('This link was used once, which is as often as it could be.').waitFor();
  expect((await buyer.page.request.get(address)).status()).toBe(410);
  expect((await buyer.page.request.get(`${address.slice(0, -1)}_`)).status()).toBe(403);
  await buyer.page.close();
  await page.reload();
  await page.getByText('The file was fetched by its link, for Letter (1)').waitFor();
  await page.getByText('Used up.').waitFor();
  // The browser says of an answer of 410 that it failed to load: that is what was asked for.
  expect(buyer.faults.filter((fault) => !fault.includes('410'))).toEqual([]);
  expect(faults).toEqual([]);
});

test('what goes with a message is saved with the order’s number on it and noted as handed out', async () => {
  await page.goto('/post/orders/shop/7');
  const pocket = page.getByRole('listitem').filter({ hasText: 'Wall Pocket file' }).first();
  await pocket.getByText('Attach it to a message').click();
  const saved = page.waitForEvent('download');
  await pocket.getByRole('button', { name: 'Save the PDF and note it' }).click();
  const pdf = lookAt(readFileSync(await (await saved).path()));
  expect(pdf.text(0)).toContain('Wall Pocket, wider');
  expect(pdf.text(0)).toContain('order 7');
  await page.getByText('The file was attached to a message (1)').waitFor();
  await page.locator('summary', { hasText: 'Write to the buyer' }).click();
  await page.getByText('Here is the file').click();
  expect(await page.getByRole('textbox', { name: 'Message' }).inputValue()).toContain(
    'Attached to this message: Wall Pocket file.',
  );
  expect(faults).toEqual([]);
});

test('a print run noted on the template raises the stock of the item that it is sold as', async () => {
  await note('printed', 'item.add', {
    name: 'Faceted Jug template',
    kind: 'template',
    paper: { plugin: 'template-sheets', paper: 'kept', input: { template: 'faceted-jug' } },
  });
  await note('counted', 'stock.print', { item: 'faceted-jug-template', count: 4 });
  await page.goto('/templates');
  await page.getByRole('link', { name: 'Faceted Jug template: 4 in stock' }).waitFor();
  await page.getByText('Note a print run of Faceted Jug template').click();
  await page.getByLabel('Note a print run', { exact: true }).fill('20');
  await page.getByRole('button', { name: 'Note what was printed' }).click();
  await page.getByRole('link', { name: 'Faceted Jug template: 24 in stock' }).waitFor();
  await page
    .getByText(/20 printed/)
    .first()
    .waitFor();
  await page.getByRole('link', { name: 'Faceted Jug template: 24 in stock' }).click();
  await page.getByRole('heading', { name: 'The template it is printed from' }).waitFor();
  await page.getByRole('link', { name: 'Faceted Jug', exact: true }).click();
  await page.getByRole('heading', { name: 'Templates' }).waitFor();
  expect(faults).toEqual([]);
});

test.each(['light', 'dark'] as const)('all of it can be used without eyes or a mouse (%s)', async (light) => {
  await note(`link-${light}`, 'download.grant', { download: `axe-${light}`, order: 'shop/7', line: '2' });
  const answer = await fetch(`${served.address}/api/handouts/shop-orders/download/axe-${light}`);
  const { path } = (await answer.json()) as { path: string };
  const pages = [
    ['/post/orders/shop/7', 'Attach it to a message'],
    ['/post/items/wall-pocket-file', 'A newer PDF in its place'],
    ['/post/items/faceted-jug-template', 'The template it is printed from'],
    ['/templates', 'Note a print run of Faceted Jug template'],
    ['/post/links', 'An address of your own'],
    [path, 'Fetch the PDF'],
    [`${path}x`, 'This link cannot be used'],
  ] as const;
  for (const [address, filled] of pages) {
    const seat = await openSeat(browser, served.address, { size: PHONE, light });
    await seat.page.goto(address);
    await seat.page.getByText(filled).first().waitFor();
    for (const fold of await seat.page.locator('.line summary').all()) await fold.click();
    expect(await violations(seat.page), address).toEqual([]);
    expect(
      await seat.page.evaluate(
        () => document.documentElement.scrollWidth <= document.documentElement.clientWidth,
      ),
      address,
    ).toBe(true);
    await seat.context.close();
  }
});

test('an address of one’s own is said once, and all links can be shut', async () => {
  await page.goto('/post/links');
  await page.getByRole('textbox', { name: 'Address' }).fill('files.example.org');
  await page.getByRole('button', { name: 'Use this address' }).click();
  await page.getByText('An address begins with https://').waitFor();
  await page.getByRole('textbox', { name: 'Address' }).fill('https://files.example.org');
  await page.getByRole('button', { name: 'Use this address' }).click();
  await page.getByText('Buyers open it at https://files.example.org.').waitFor();
  await page.getByText('Shut all links', { exact: true }).last().click();
  await page.getByRole('button', { name: 'Shut all links that were made' }).click();
  await page.getByText('All links are shut.').first().waitFor();
  await page.getByRole('button', { name: 'Use no address' }).click();
  expect(faults.filter((fault) => !fault.includes('400'))).toEqual([]);
});
