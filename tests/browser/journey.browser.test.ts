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

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });
const link = (name: string | RegExp) => page.getByRole('link', { name, exact: typeof name === 'string' });
const heading = (name: string | RegExp) => page.getByRole('heading', { name, level: 1 });
/** Touches a large choice: the label is the target, the radio inside it has no size of its own. */
const choose = (group: string | RegExp, name: string) =>
  page.getByRole('group', { name: group }).getByRole('radio', { name, exact: true }).check();
const said = (text: string | RegExp) => page.locator('.done').getByText(text).waitFor();

/** The cells of the tally's row, as they read. */
async function tallyRow(name: string): Promise<string[]> {
  const row = page.locator('table.tally tbody tr').filter({ hasText: name });
  await row.waitFor();
  return row.locator('td.figure-text').allInnerTexts();
}

async function addMaterials(): Promise<void> {
  await page.goto('/materials');
  const add = async (opens: string, name: string) => {
    const section = page.locator('section').filter({ has: page.locator('summary', { hasText: opens }) });
    if (!(await section.getByLabel('Name', { exact: true }).isVisible()))
      await section.locator('summary', { hasText: opens }).click();
    await section.getByLabel('Name', { exact: true }).fill(name);
    await section.getByRole('button', { name: 'Add it' }).click();
    await said(`Added: ${name}.`);
  };
  await add('Add a clay', 'Fell White');
  await add('Add a glaze', 'Cuttle White');
  await add('Add a glaze', 'Quicksilver Run');
  await add('Add a schedule', 'Overnight Bisque 06');
  await add('Add a schedule', 'Glaze 6 Plain');
  await add('Add a kiln', 'Big Round');
}

async function fire(role: 'bisque' | 'glaze', pack: string): Promise<void> {
  await link(pack).click();
  await heading('Pack a kiln').waitFor();
  expect(await page.getByRole('radio', { name: role, exact: true }).isChecked()).toBe(true);
  await page.getByRole('checkbox', { name: /12 × tile/, checked: true }).waitFor();
  await button('Pack 12 pieces').click();
  await said('Packed 12 pieces in Big Round.');
  await button('Light the kiln').click();
  await said('Lit.');
  await page.getByLabel('Highest temperature').fill(role === 'bisque' ? '1000' : '1222');
  await button('The firing has ended').click();
  await said('The firing has ended.');
  await link('Draw the kiln').click();
}

async function glaze(zone: string, name: string, coats: number): Promise<void> {
  await choose('Zone', zone);
  await page.getByLabel('Glaze', { exact: true }).selectOption({ label: name });
  for (let n = 1; n < coats; n += 1) await button('One more: Coats').click();
  await button('Glaze this zone').click();
  await said(`Glazed, ${zone}: ${name}.`);
}

test('a lot of 12 is begun, glazed two ways, packed, fired and drawn; the tally counts it, and counts anew when an entry is struck out', async () => {
  await addMaterials();

  await page.goto('/ware/begin');
  await page.getByLabel('What is it').fill('tile');
  await page.getByRole('spinbutton', { name: 'How many alike' }).fill('12');
  await page.getByLabel('Clay', { exact: true }).selectOption({ label: 'Fell White' });
  await button('Begin this lot of 12').click();
  await said('Begun: a lot of 12, tile.');
  await heading(/12 × tile/).waitFor();
  const piece = new URL(page.url()).pathname;

  await fire('bisque', 'Pack for a bisque firing');
  await button('All 12 good').click();
  await page.getByText('Everything has been looked over.').waitFor();
  await button('The kiln is empty').click();
  await said('The kiln is drawn.');

  await page.goto(piece);
  await link('Glaze').click();
  await glaze('inside', 'Cuttle White', 1);
  await glaze('outside', 'Quicksilver Run', 2);
  await link('Done glazing').click();

  await fire('glaze', 'Pack for a glaze firing');
  const mark = (await page.locator('.in-hand .mark').textContent()) ?? '';
  expect(mark).toMatch(/^[A-Z0-9]{5,6}$/);
  for (const key of ['Not all good', 'pinholes', 'inside', '2', 'Second', 'Fault on these too'])
    await button(key).click();
  for (const key of ['pinholes', 'inside', '1', 'Waster', 'The other 9 are good']) await button(key).click();
  await said(
    `${mark} 12 × tile: 2 seconds with pinholes on the inside; 1 waster with pinholes on the inside; 9 firsts.`,
  );
  await button('The kiln is empty').click();
  await said('The kiln is drawn.');

  await page.goto('/review');
  await link('Seconds and wasters by glaze').click();
  await page.getByText('2 seconds and 1 waster of 12 graded pieces (25 %)').waitFor();
  expect(await tallyRow('Quicksilver Run')).toEqual(['9', '2', '1']);
  await page.goto('/review/seconds-tally/by-fault');
  await page.getByRole('table').first().waitFor();
  expect((await tallyRow('pinholes')).slice(1)).toEqual(['2', '1']);

  // The number leads to the piece behind it, and the piece to its story.
  await page
    .locator('table.tally')
    .getByRole('link', { name: /^1: .*Wasters/ })
    .click();
  await heading('The pieces behind a number').waitFor();
  await page.getByRole('link', { name: mark }).first().click();
  await heading(/tile/).waitFor();

  const graded = page.locator('.story li').filter({ hasText: 'Graded: 1 waster' });
  await graded.locator('summary', { hasText: 'Strike out' }).click();
  await graded.getByLabel('Why').fill('It was the kiln shelf that had the chip.');
  await graded.getByRole('button', { name: 'Strike it out' }).click();
  await said('Struck out.');
  await page.getByText('Struck out: It was the kiln shelf that had the chip.').waitFor();

  await page.goto('/review/seconds-tally/by-glaze');
  await page.getByText('2 seconds and 0 wasters of 11 graded pieces').waitFor();
  expect(await tallyRow('Quicksilver Run')).toEqual(['9', '2', '0']);
  expect(faults).toEqual([]);
}, 120_000);

test('Undo takes back what was just done, and the page says so', async () => {
  await page.goto('/ware/begin');
  await page.getByLabel('What is it').fill('beaker');
  await button('Begin this piece').click();
  await said('Begun: beaker.');
  await heading(/beaker/).waitFor();
  await button('Undo').click();
  await page.getByText('There is no such piece').waitFor();
  expect(await page.getByRole('status').last().textContent()).toBe('Undone: Begun: beaker.');
  await page.goto('/ware?q=beaker');
  await page.getByText('No ware matches what you asked for.').waitFor();
  expect(faults).toEqual([]);
});
