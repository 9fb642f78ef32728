/** From Review to what to change, and from a fault to its guide: what a tired potter taps. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violations } from '../support/axe.ts';
import { LAPTOP, openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { openServed, type Served } from '../support/served.ts';
import { smallYard, type Yard } from '../support/small-yard.ts';

let served: Served;
let browser: Browser;
let yard: Yard;

beforeAll(async () => {
  [served, browser] = await Promise.all([openServed(), openBrowser()]);
  yard = await smallYard(served.host);
}, 90_000);
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

test('one tap from anywhere says which glaze it was and what to change; the second opens the year on a page', async () => {
  const { page, context, faults } = await openSeat(browser, served.address, { size: PHONE });
  page.setDefaultTimeout(30_000);
  await page.goto('/');
  await page.getByRole('link', { name: 'Review', exact: true }).click();
  await page.getByText(/^Quicksilver Run (probably )?caused the most/).waitFor();
  await page.getByRole('heading', { name: 'What to change' }).waitFor();
  await page.getByText(/^Change how Quicksilver Run is used first/).waitFor();

  await page.getByRole('link', { name: 'The year on a page' }).first().click();
  await page.getByRole('heading', { name: 'The year on a page', level: 1 }).waitFor();
  await page.getByText(/^2026 so far, until 25 November 2026: \d+ firsts/).waitFor();
  expect(await violations(page)).toEqual([]);

  await page.getByLabel('Which year').selectOption({ label: '2025' });
  await page.getByText(/^2025: \d+ firsts/).waitFor();
  expect(new URL(page.url()).searchParams.get('from')).toBe('2025-01-01');
  const href = await page.getByRole('link', { name: 'As a table file (CSV)' }).getAttribute('href');
  const csv = await page.request.get(href!);
  expect(csv.headers()['content-type']).toContain('text/csv');
  expect(await csv.text()).toMatch(/^kind,key,label,/);

  await page.getByLabel('Which year').selectOption({ label: 'other days' });
  await page.getByLabel('From').fill('2025-06-01');
  await page.getByText(/^1 June 2025 to 30 December 2025: /).waitFor();
  expect(faults).toEqual([]);
  await context.close();
}, 90_000);

test('a fault in the story leads to its guide, which marks what the piece has', async () => {
  const { page, context, faults } = await openSeat(browser, served.address, { size: LAPTOP });
  page.setDefaultTimeout(30_000);
  const found = await served.host.report('seconds-tally', 'pieces', {
    by: 'fault',
    key: 'runs',
    grade: 'second',
  });
  await page.goto(`/ware/${found.rows[0]!.piece}`);
  await page.getByRole('link', { name: 'What to do about it' }).waitFor();
  await page.getByRole('link', { name: 'runs', exact: true }).click();
  await page.getByRole('heading', { name: 'Runs', level: 1 }).waitFor();
  await page.getByText(/^Runs: on \d+ of \d+ inspected pieces/).waitFor();
  await page
    .getByRole('listitem')
    .filter({ hasText: /^Quicksilver Run \(glaze, on this piece\)/ })
    .waitFor();
  await page.getByText('Hold the glaze back further from the foot').waitFor();
  await page.getByRole('note', { name: 'Take care' }).waitFor();
  expect(await violations(page)).toEqual([]);
  await page.getByRole('link', { name: 'All faults' }).click();
  await page.getByRole('link', { name: 'Shivering' }).click();
  await page.getByText(/only the books can say/).waitFor();
  expect(faults).toEqual([]);
  await context.close();
}, 90_000);

test('at the kiln the guide opens in place, and what was filled in stays', async () => {
  const { page, context, faults } = await openSeat(browser, served.address, { size: PHONE });
  page.setDefaultTimeout(30_000);
  await page.goto(`/ware/${yard.pieces.beakers}/fault`);
  await page.getByRole('radio', { name: 'crazing' }).check();
  await page.getByRole('radio', { name: 'inside' }).check();
  await page.getByText('What is known of crazing').click();
  await page.getByText('A net of fine cracks in the glaze').waitFor();
  await page.getByText('Lay the glaze on thinner').waitFor();
  expect(await violations(page)).toEqual([]);
  expect(await page.getByRole('radio', { name: 'inside' }).isChecked()).toBe(true);
  await page.getByRole('radio', { name: 'dry' }).check();
  await page.getByText('What is known of dry').waitFor();
  expect(await page.getByText('A net of fine cracks in the glaze').count()).toBe(0);
  expect(faults).toEqual([]);
  await context.close();
}, 90_000);
