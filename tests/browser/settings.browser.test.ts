/** What is asked for in Settings: the calendar's address, and notices. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { LAPTOP, openBrowser, openSeat } from '../support/browser.ts';
import { openServed, type Served } from '../support/served.ts';
import { smallYard, type Yard } from '../support/small-yard.ts';

let served: Served;
let browser: Browser;
let yard: Yard;

beforeAll(async () => {
  [served, browser] = await Promise.all([openServed(), openBrowser()]);
  yard = await smallYard(served.host, 1);
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

test('the calendar has an address once it is made; changed, the old one is shut', async () => {
  const { page, context, faults } = await openSeat(browser, served.address, { size: LAPTOP });
  page.setDefaultTimeout(30_000);
  await page.goto('/settings');
  await page.getByRole('button', { name: 'Make an address' }).click();
  const field = page.getByLabel('Address of the calendar');
  await field.waitFor();
  const first = await field.inputValue();
  const feed = await fetch(first);
  expect(feed.status).toBe(200);
  expect(await feed.text()).toContain('SUMMARY:Glaze\\, late November');
  await page.getByRole('button', { name: 'Change the address' }).click();
  await page.waitForFunction((old) => {
    const input = document.querySelector<HTMLInputElement>('input[readonly]');
    return input !== null && input.value !== old;
  }, first);
  expect((await fetch(first)).status).toBe(404);
  expect((await fetch(await field.inputValue())).status).toBe(200);
  expect(faults).toEqual([]);
  await context.close();
});

test('the browser is asked for notices only after a tap, and a notice comes of what has come up since', async () => {
  const { page, context, faults } = await openSeat(browser, served.address, { size: LAPTOP });
  page.setDefaultTimeout(30_000);
  await page.addInitScript(() => {
    const shown: string[] = [];
    class Notice extends EventTarget {
      static permission = localStorage.getItem('asked') ?? 'default';
      static async requestPermission() {
        localStorage.setItem('asked', 'granted');
        Notice.permission = 'granted';
        return 'granted';
      }
      constructor(title: string, { body }: { body: string }) {
        super();
        shown.push(`${title}: ${body}`);
      }
    }
    Object.assign(globalThis, { Notification: Notice, shown });
    navigator.serviceWorker.getRegistration = async () => undefined;
  });
  const asked = () => page.evaluate(() => localStorage.getItem('asked'));
  await page.goto('/');
  await page.getByText('Kilns to draw').waitFor();
  await page.goto('/settings');
  await page.getByRole('button', { name: 'Show notices on this device' }).waitFor();
  expect(await asked()).toBeNull();
  await page.getByRole('button', { name: 'Show notices on this device' }).click();
  await page.getByText('Notices are shown on this device.').waitFor();
  expect(await page.evaluate('shown')).toEqual([]);

  const grade = { piece: yard.pieces.lamp!, parts: [{ count: 1, grade: 'second' }] };
  const order = { id: '01990000-0000-7000-8000-000000000001', command: 'piece.look-over', input: grade };
  await served.host.record({ ...order, who: 'maker', device: 'bench' });
  await page.waitForFunction(() => (globalThis as unknown as { shown: string[] }).shown.length > 1);
  expect(await page.evaluate('shown')).toEqual([
    expect.stringMatching(/^Clients to ask: .* altar lamp$/),
    expect.stringMatching(/^Repairs to decide: .* altar lamp$/),
  ]);
  await page.getByRole('button', { name: 'Show none' }).click();
  await page.getByRole('button', { name: 'Show notices on this device' }).waitFor();
  expect(faults).toEqual([]);
  await context.close();
});
