/** A phone at the kiln with the network really cut and the studio's program killed. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import { openBrowser, PHONE } from '../support/browser.ts';
import { OwnProcess } from '../support/own-process.ts';

const PIECES = 8;
const pieceId = (n: number) => `01980000-0000-7000-8000-0000000002${String(n).padStart(2, '0')}`;

const studio = new OwnProcess();
let browser: Browser;
let context: BrowserContext;
let page: Page;
let orders = 0;

const order = (command: string, input: object, happenedAt: string) => {
  orders += 1;
  return { id: `01980000-0000-7000-8000-${String(orders).padStart(12, '0')}`, command, input, happenedAt };
};

/** Said by another device: the laptop. */
async function tell(...commands: object[]): Promise<void> {
  const answer = await fetch(`${studio.address}/api/commands`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'x-wareboard-device': 'laptop' },
    body: JSON.stringify({ commands }),
  });
  const { outcomes } = (await answer.json()) as { outcomes: { outcome: string }[] };
  expect(outcomes.map(({ outcome }) => outcome)).toEqual(commands.map(() => 'recorded'));
}

async function entries(): Promise<readonly Entry[]> {
  const answer = await fetch(`${studio.address}/api/log?limit=1000`);
  return ((await answer.json()) as { entries: Entry[] }).entries;
}

const all = Array.from({ length: PIECES }, (_, n) => pieceId(n));
const fire = (firing: string, role: string, day: string, pieces: readonly string[] = all) => [
  order(
    'firing.pack',
    { firing, label: firing, kiln: 'big-round', role, places: pieces.map((piece) => ({ piece, shelf: 1 })) },
    day,
  ),
  order('firing.light', { firing }, day),
  order('firing.end', { firing }, day),
];

beforeAll(async () => {
  OwnProcess.build();
  [browser] = await Promise.all([openBrowser(), studio.start()]);
  await tell(
    order('kiln.add', { name: 'Big Round' }, '2026-05-01'),
    order('clay.add', { name: 'Fell White' }, '2026-05-01'),
    order('glaze.add', { name: 'Gannet Grey' }, '2026-05-01'),
    ...all.map((piece, n) =>
      order(
        'piece.begin',
        { piece, form: 'beaker', clay: 'fell-white', mark: `BEAK-${n + 1}` },
        '2026-05-02',
      ),
    ),
    ...fire('B1', 'bisque', '2026-05-10'),
    order('firing.draw', { firing: 'B1' }, '2026-05-10'),
    ...all.map((piece) =>
      order(
        'glaze.apply',
        { piece, zone: 'outside', layers: [{ glaze: 'gannet-grey', coats: 2 }] },
        '2026-05-12',
      ),
    ),
    ...fire('G1', 'glaze', '2026-05-20'),
  );
  context = await browser.newContext({
    ...PHONE,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    baseURL: studio.address,
    reducedMotion: 'reduce',
  });
  await openPage();
}, 180_000);

afterAll(async () => {
  await browser?.close();
  await studio.end();
});

const faults: string[] = [];
async function openPage(at = '/'): Promise<void> {
  page = await context.newPage();
  page.setDefaultTimeout(30_000);
  page.on('pageerror', (error) => faults.push(String(error)));
  await page.goto(at);
}

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: typeof name === 'string' });
const stands = (text: string | RegExp) => page.locator('.stands').getByText(text).waitFor();
const cut = async () => {
  await context.setOffline(true);
  await studio.kill();
};

test('a kiln is drawn for days without the network, and all of it arrives once and in order', async () => {
  // The first visit: the page and the day's work are put by.
  await page.getByText('Kilns to draw').waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.goto(`/ware/${pieceId(7)}/note`);
  await page.getByLabel('Note').fill('the handle is a little low');
  await button('Write it down').click();
  await page.locator('.done').waitFor();
  await page.goto('/unsent');
  await page.getByText('1 firing and 8 lots are kept on this device.').waitFor();
  await page.getByText('foot marks in reserve').waitFor({ timeout: 20_000 });
  const before = (await entries()).length;

  await cut();

  // A closed tab, and the page from the device.
  await page.close();
  await openPage('/kilns/G1/draw');
  await stands(/The studio is not heard: this is as it was at \d\d:\d\d/);
  await page.locator('.in-hand').getByText('BEAK-1').waitFor();
  await button('Good').click();
  await page.locator('.in-hand').getByText('BEAK-2').waitFor();
  await stands('1 entry waiting to be sent');
  for (const key of ['Fault', 'pinholes', 'inside', 'Second']) await button(key).first().click();
  await page.locator('.in-hand').getByText('BEAK-3').waitFor();
  await stands('2 entries waiting to be sent');

  // Taken back: the piece before is in the hand again, and is noted otherwise.
  await button('Undo').click();
  await page.locator('.in-hand').getByText('BEAK-2').waitFor();
  await button('Good').click();
  await page.locator('.in-hand').getByText('BEAK-3').waitFor();
  await stands('4 entries waiting to be sent');

  // What the studio would refuse is refused here, and nothing is kept of it.
  await page.goto(`/ware/${pieceId(0)}/grade`);
  await page.getByRole('heading', { level: 1 }).waitFor();

  // A battery that dies: the browser is gone without a word, and what waits is still there.
  await page.close({ runBeforeUnload: false });
  await openPage('/unsent');
  await page.getByText('4 entries waiting to be sent').first().waitFor();
  expect(await page.locator('main ol.ledger li').count()).toBe(4);

  // A piece begun meanwhile has a mark of the run that this device holds.
  await page.goto('/ware/begin');
  await page.getByLabel('What is it').fill('jug');
  await button(/^Begin/).click();
  await page
    .getByRole('heading', { level: 1 })
    .getByText(/[A-Z0-9]{5,6}/)
    .waitFor();

  // A newer page comes while entries wait: they are not let through, and are still there after it.
  await page.route('**/api/commands', (route) => route.abort());
  studio.release();
  await studio.start();
  await context.setOffline(false);
  await page.goto('/unsent');
  await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
  await button('Use it now').click();
  await page.waitForURL('**/unsent');
  await page.waitForFunction(() =>
    [...document.scripts].some((script) => script.src.includes('index-newer-')),
  );
  await page.getByText('5 entries waiting to be sent').first().waitFor();
  expect(await entries()).toHaveLength(before);

  await button('Send now').click();
  await page.unroute('**/api/commands');
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await page.getByText('Nothing waits on this device').waitFor();

  const arrived = (await entries()).slice(before);
  expect(arrived.map((entry) => entry.name)).toEqual([
    'piece.graded',
    'fault.found',
    'piece.graded',
    'entry.struck',
    'entry.struck',
    'piece.graded',
    'piece.begun',
  ]);
  expect(new Set(arrived.map(({ command, part }) => `${command}/${part}`)).size).toBe(arrived.length);
  expect(arrived.every(({ clock, device }) => clock !== undefined && device !== 'laptop')).toBe(true);
  const clocks = arrived.map(({ clock }) => Date.parse(clock!));
  expect(clocks).toEqual(clocks.toSorted((a, b) => a - b));
  expect(faults).toEqual([]);
}, 120_000);

test('what cannot be true together with the laptop’s word is put to the user with both sides', async () => {
  await context.setOffline(true);
  await page.goto('/kilns/G1/draw');
  await page.locator('.in-hand').getByText('BEAK-3').waitFor();
  await button('Good').click();
  await page.locator('.in-hand').getByText('BEAK-4').waitFor();
  await button('Good').click();
  await page.locator('.in-hand').getByText('BEAK-5').waitFor();
  await tell(
    order('piece.grade', { piece: pieceId(2), second: 1, firing: 'G1' }, '2026-05-21'),
    order('piece.grade', { piece: pieceId(3), first: 1, firing: 'G1' }, '2026-05-21'),
  );
  await context.setOffline(false);
  await page.goto('/unsent');
  await stands('1 entry needs you');
  await page.getByText('In the meantime another device recorded something else').waitFor();
  const sides = page.locator('.sides');
  await sides.getByText('BEAK-3').waitFor();
  await sides.getByText('1 second').waitFor();
  await button('Mine is right: strike out the other').click();
  await page.getByText('Nothing waits on this device').waitFor();
  await page.getByText('Replaced: mine is right.').waitFor();
  await page.goto(`/ware/${pieceId(2)}`);
  await page.getByText(/first/).first().waitFor();
  const names = (await entries()).slice(-4).map(({ name, device }) => [name, device === 'laptop']);
  expect(names.filter(([name]) => name === 'entry.struck')).toEqual([['entry.struck', false]]);
  expect(faults).toEqual([]);
}, 60_000);
