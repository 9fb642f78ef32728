import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { LAPTOP, openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { openServed, type Served } from '../support/served.ts';
import { smallYard, type Yard } from '../support/small-yard.ts';

let served: Served;
let browser: Browser;
let yard: Yard;
let page: Page;

beforeAll(async () => {
  [served, browser] = await Promise.all([openServed(), openBrowser()]);
  yard = await smallYard(served.host, 2);
}, 60_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

beforeEach(async () => {
  ({ page } = await openSeat(browser, served.address, { size: LAPTOP }));
  page.setDefaultTimeout(30_000);
});

afterEach(() => page.context().close());

const heading = (name: string | RegExp) => page.getByRole('heading', { name, level: 1 });

test('when Wareboard cannot be reached, what was noted is kept on the device and sent later', async () => {
  await page.goto('/ware/begin');
  await page.getByLabel('What is it').fill('lidded jar');
  await page.route('**/api/commands', (route) => route.abort());
  await page.getByRole('button', { name: 'Begin this piece' }).click();
  await page.locator('.stands').getByText('1 entry waiting to be sent').waitFor();

  await page.getByRole('link', { name: '1 entry waiting to be sent' }).click();
  await page.getByRole('button', { name: 'Send now' }).click();
  await page.unroute('**/api/commands');
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await page.getByText('Nothing waits on this device').waitFor();
  await page.getByRole('navigation').getByRole('link', { name: 'Ware', exact: true }).click();
  await page.getByText('lidded jar').first().waitFor();
});

/** As in a private window, or where the user has turned storage off. */
const keepNothing = () =>
  page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('storage is turned off', 'InvalidStateError');
    };
  });

test('in a browser that keeps nothing, what was typed stays, and the page says what to do', async () => {
  await keepNothing();
  await page.goto('/ware/begin');
  await page.locator('.stands').getByText('This browser keeps nothing here').waitFor();
  await page.getByLabel('What is it').fill('lidded jar');
  await page.route('**/api/commands', (route) => route.abort());
  await page.getByRole('button', { name: 'Begin this piece' }).click();
  const alert = page.getByRole('alert');
  expect(await alert.textContent()).toContain('Wareboard could not be reached.');
  expect(await alert.textContent()).toContain(
    'Nothing was recorded; what you entered is still on this page.',
  );
  expect(await page.getByLabel('What is it').inputValue()).toBe('lidded jar');

  await page.unroute('**/api/commands');
  await page.getByRole('button', { name: 'Begin this piece' }).click();
  await heading(/lidded jar/).waitFor();
});

test('a screen that fails says so in its place, and the other places still open', async () => {
  await page.route('**/api/reports/studio/ware*', (route) =>
    route.fulfill({ json: { sentence: 'x', rows: null } }),
  );
  await page.goto('/ware');
  await heading('This screen could not be shown.').waitFor();
  await page.getByRole('navigation').getByRole('link', { name: 'Kilns' }).click();
  await heading('Kilns').waitFor();
});

test('a move that is not legal is not offered, and the page says why', async () => {
  await page.goto(`/ware/${yard.pieces.student}`);
  const next = page.locator('.next');
  await next.getByRole('link', { name: 'Pack for a bisque firing' }).waitFor();
  expect(await next.getByRole('link', { name: 'Grade', exact: true }).count()).toBe(0);
  await next.getByText('What can’t be done now, and why').click();
  await next.getByText("This can't be graded: it is leather-hard.").waitFor();
});

test('an entry that others rest on is struck out only together with them', async () => {
  await page.goto(`/kilns/${yard.firings.toDraw}`);
  const lit = page.locator('.story li').filter({ hasText: 'Kiln lit' });
  await lit.locator('summary').click();
  await lit.getByRole('button', { name: 'Strike it out' }).click();
  await lit.getByText('These rest on it and would have to go too:').waitFor();
  await lit.getByRole('button', { name: 'Strike out both' }).click();
  await page.getByText('packed, not yet lit').first().waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByText('ended, to be drawn').first().waitFor();
});

test('what is recorded on the phone is seen on the laptop at once', async () => {
  const phone = await openSeat(browser, served.address, { size: PHONE });
  await page.goto(`/ware/${yard.pieces.bowls}`);
  await heading(/cereal bowl/).waitFor();
  await phone.page.goto(`/ware/${yard.pieces.bowls}/note`);
  await phone.page.getByLabel('Note').fill('Rims a little thick.');
  await phone.page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('Rims a little thick.').waitFor();
  await phone.context.close();
});

test('the whole can be used by the keyboard: the focus goes to the new screen’s title, and there is a way past the places', async () => {
  await page.goto('/');
  await heading('Today').waitFor();
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the page');
  const ware = page.getByRole('navigation').getByRole('link', { name: 'Ware', exact: true });
  for (let n = 0; n < 6 && !(await ware.evaluate((link) => link === document.activeElement)); n++)
    await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await heading('Ware').waitFor();
  await page.waitForFunction(() => document.activeElement?.tagName === 'H1');
  expect(await page.title()).toBe('Ware · Hollin Yard Pottery');
});

test('the first screen is light: well under 100 kB of script and style over the wire', async () => {
  const client = await page.context().newCDPSession(page);
  await client.send('Network.enable');
  const kinds = new Map<string, string>();
  let bytes = 0;
  client.on('Network.responseReceived', ({ requestId, type }) => kinds.set(requestId, type));
  client.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
    if (['Script', 'Stylesheet', 'Document'].includes(kinds.get(requestId) ?? '')) bytes += encodedDataLength;
  });
  await page.goto('/');
  await page.getByText('Kilns to draw').waitFor();
  expect(bytes).toBeGreaterThan(10_000);
  expect(bytes).toBeLessThan(70_000);
});
