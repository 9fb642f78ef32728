/** How often the page asks: once when a screen opens, and once for what was recorded. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { LAPTOP, openBrowser, openSeat } from '../support/browser.ts';
import { openServed, type Served } from '../support/served.ts';
import { smallYard, type Yard } from '../support/small-yard.ts';

let served: Served;
let browser: Browser;
let yard: Yard;
let page: Page;
let faults: string[];
beforeAll(async () => {
  [browser, served] = await Promise.all([openBrowser(), openServed()]);
  yard = await smallYard(served.host, 1);
  ({ page, faults } = await openSeat(browser, served.address, { size: LAPTOP }));
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

const noted = (note: string, n: number) =>
  served.host.record({
    id: `01980000-0000-7000-8000-0000000f000${n}`,
    command: 'piece.note',
    input: { piece: yard.pieces.jug!, note },
    who: 'maker',
    device: 'another',
  });

test('a piece’s story is asked for once, and once more for each thing that is recorded of it', async () => {
  const asked: string[] = [];
  page.on('request', (request) => {
    if (request.url().includes('/api/reports/studio/piece?')) asked.push(request.url());
  });
  const live = page.waitForResponse('**/api/log/live');
  await page.goto(`/ware/${yard.pieces.jug}`);
  await page.getByText('Story').first().waitFor();
  await live;
  await noted('from another device', 1);
  await page.getByText('from another device').waitFor();
  expect(asked).toHaveLength(2);

  await page.goto(`/ware/${yard.pieces.jug}/note`);
  await page.getByLabel('Note').fill('from this one');
  asked.length = 0;
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('from this one').waitFor();
  await noted('once more from another', 2);
  await page.getByText('once more from another').waitFor();
  // The form is still there when it is noted, then the story stands; then the news.
  expect(asked.length).toBeLessThanOrEqual(3);
  expect(faults).toEqual([]);
});
