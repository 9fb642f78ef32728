/** Drawing a kiln with a wet thumb, and with a keyboard: every tap is counted. */
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
let taps: number;

beforeAll(async () => {
  browser = await openBrowser();
}, 60_000);
afterAll(() => browser?.close());

const sit = async (size: typeof PHONE | typeof LAPTOP) => {
  ({ page, faults } = await openSeat(browser, served.address, { size }));
  page.setDefaultTimeout(30_000);
  taps = 0;
};
beforeEach(async () => {
  served = await openServed();
  yard = await smallYard(served.host, 1);
  await sit(PHONE);
}, 60_000);
afterEach(async () => {
  await page.context().close();
  await served.close();
  expect(faults).toEqual([]);
});

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });
/** One tap, as a finger makes it: not twice on the same spot, which would be a double tap. */
const tap = async (name: string | RegExp) => {
  const { width, height } = await box(button(name));
  await button(name).tap({ position: { x: taps % 2 ? 16 : width - 16, y: height / 2 } });
  taps += 1;
};
const inHand = (form: string) => page.locator('.in-hand .form').getByText(form, { exact: true }).waitFor();
const said = (text: string | RegExp) => page.locator('.done').getByText(text).waitFor();
const box = async (target: Locator) => (await target.boundingBox())!;
const draw = () => page.goto(`/kilns/${yard.firings.toDraw}/draw`);

/** Each form that came out, with its counts by grade and its faults. */
async function cameOut(): Promise<string[]> {
  const { rows } = await served.host.report('studio', 'firing', { firing: yard.firings.toDraw! });
  return rows.map((row) => {
    const found = (row.faults as { kind: string; zone: string | null }[]).map((f) => `${f.kind}@${f.zone}`);
    return [`${row.count} ${row.form}`, row.grade, ...found].join(' ');
  });
}

test('a good piece is one tap, and the next is in the hand by itself; undo goes back through every piece', async () => {
  await draw();
  await inHand('faceted jug');
  for (const name of ['Good', 'Fault']) {
    const { y, height, width } = await box(button(name));
    expect(y).toBeGreaterThan(PHONE.viewport.height / 2);
    expect(Math.min(height, width)).toBeGreaterThanOrEqual(56);
  }
  const before = await box(button('Good'));
  await tap('Good');
  await inHand('8 × beaker');
  expect(taps).toBe(1);
  expect(await box(button('All 8 good'))).toMatchObject({ x: before.x, y: before.y });
  await tap('All 8 good');
  await inHand('altar lamp');
  expect(taps).toBe(2);
  expect(await cameOut()).toEqual(['1 faceted jug first', '8 beaker first', '1 altar lamp ']);

  await tap('Undo');
  await inHand('8 × beaker');
  await tap('Undo');
  await inHand('faceted jug');
  expect(await button('Undo').count()).toBe(0);
  expect(await cameOut()).toEqual(['1 faceted jug ', '8 beaker ', '1 altar lamp ']);
});

test('a fault is said in four taps, and with its repair in five; nothing is typed, and every key is large and low', async () => {
  await draw();
  await inHand('faceted jug');
  await tap('Fault');
  for (const key of await page.locator('.hand .keys button').all()) {
    const { y, height, width } = await box(key);
    expect(Math.min(height, width)).toBeGreaterThanOrEqual(56);
    expect(y).toBeGreaterThan(PHONE.viewport.height / 2);
  }
  await tap('runs');
  await tap('foot');
  await tap('Second');
  await inHand('8 × beaker');
  expect(taps).toBe(4);
  await said(/runs on the foot/);
  expect((await cameOut())[0]).toBe('1 faceted jug second runs@foot');

  await tap('Undo');
  await inHand('faceted jug');
  taps = 0;
  await tap('Fault');
  await tap('stilt marks');
  await tap('base');
  await tap('A second, to be mended');
  await tap('grind');
  await inHand('8 × beaker');
  expect(taps).toBe(5);
  const { rows } = await served.host.report('studio', 'piece', { piece: yard.pieces.jug! });
  expect(rows[0]).toMatchObject({ stage: 'mending', repairs: [{ method: 'grind', fault: 'stilt-marks' }] });
});

test('of eight beakers six are firsts and two are seconds with pinholes: six taps, and the faults are on those two', async () => {
  await draw();
  await tap('Good');
  await inHand('8 × beaker');
  taps = 0;
  await tap('Not all good');
  await tap('pinholes');
  await tap('inside');
  await tap('2');
  await tap('Second');
  await tap('The other 6 are good');
  await inHand('altar lamp');
  expect(taps).toBe(6);
  expect((await cameOut()).slice(1, 3)).toEqual(['6 beaker first', '2 beaker second pinholes@inside']);
  await tap('Undo');
  await inHand('8 × beaker');
});

test('a broken piece is three taps; a wrong tap goes a step back', async () => {
  await draw();
  await inHand('faceted jug');
  await tap('Fault');
  await tap('crazing');
  await button('Back').tap();
  await button('broken').waitFor();
  await button('Back to this piece').tap();
  taps = 0;
  await tap('Fault');
  await tap('broken');
  await tap('Waster');
  await inHand('8 × beaker');
  expect(taps).toBe(3);
  expect((await cameOut())[0]).toBe('1 faceted jug waster broken@null');
});

test('one leaves and comes back where one was; another piece can be taken first', async () => {
  await draw();
  await tap('Good');
  await inHand('8 × beaker');
  await page.goto('/');
  await page.getByText('Kilns to draw').waitFor();
  await draw();
  await inHand('8 × beaker');
  await tap('Something else');
  await tap('Take another piece');
  await page.getByRole('button', { name: /^Take .*altar lamp next$/ }).tap();
  await inHand('altar lamp');
  await tap('Good');
  await inHand('8 × beaker');
});

test('a piece that is not in the kiln was left out of the firing, and stays as it was before', async () => {
  await draw();
  await inHand('faceted jug');
  await tap('Something else');
  await tap('It is not in the kiln');
  await tap('it was left out, not fired');
  await inHand('8 × beaker');
  expect(await cameOut()).toEqual(['8 beaker ', '1 altar lamp ']);
  const { rows } = await served.host.report('studio', 'piece', { piece: yard.pieces.jug! });
  expect(rows[0]).toMatchObject({ stage: 'glazed' });
  await tap('Undo');
  await inHand('faceted jug');
});

test('a piece that was not packed is found by its mark, went through the firing, and is looked over', async () => {
  const { rows } = await served.host.report('studio', 'piece', { piece: yard.pieces.plates! });
  const mark = String(rows[0]!.mark);
  await draw();
  await inHand('faceted jug');
  await tap('Something else');
  await tap('One here was not packed');
  // Two neighbours the wrong way round: it says so, and which piece is meant.
  const at = [...mark].findIndex((symbol, n) => n > 0 && symbol !== mark[n - 1]);
  const swapped = mark.slice(0, at - 1) + mark[at] + mark[at - 1] + mark.slice(at + 1);
  await page.getByRole('searchbox', { name: 'One here was not packed' }).fill(swapped);
  await page.getByText('does not add up').last().waitFor();
  await page.getByRole('button', { name: /4 × side plate two symbols the other way round/ }).tap();
  await said(/side plate went through this firing/);
  expect(await cameOut()).toContain('4 side plate ');
});

test('with a keyboard alone: Enter is good, letters find the fault, arrows go about, Escape goes back', async () => {
  await page.context().close();
  await sit(LAPTOP);
  await draw();
  await inHand('faceted jug');
  await button('Good').focus();
  await page.keyboard.press('Enter');
  await inHand('8 × beaker');
  await page.locator('.hand button:focus').getByText('All 8 good').waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.keyboard.type('cr');
  expect(await page.locator('button:focus').textContent()).toBe('crawling');
  await page.keyboard.press('Enter');
  await button('outside').waitFor();
  await page.keyboard.press('Escape');
  await button('crawling').waitFor();
  await page.keyboard.type('pi');
  await page.keyboard.press('Enter');
  await button('inside').waitFor();
  await page.keyboard.press('Enter');
  await button('2').waitFor();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await button('Second').waitFor();
  await page.keyboard.type('s');
  await page.keyboard.press('Enter');
  await button('The other 6 are good').waitFor();
  await page.keyboard.press('Enter');
  await inHand('altar lamp');
  expect(await cameOut()).toContain('2 beaker second pinholes@inside');
  await page.keyboard.press('Control+z');
  await inHand('8 × beaker');
});
