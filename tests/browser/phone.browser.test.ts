/** A phone's first visit over the workshop's network: trusted, signed in, sent away; and what the laptop shows meanwhile. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { violations } from '../support/axe.ts';
import { LAPTOP, openBrowser, PHONE } from '../support/browser.ts';
import { openServed, PASSPHRASE, type Served } from '../support/served.ts';

let browser: Browser;
let served: Served;
let contexts: BrowserContext[] = [];

beforeAll(async () => {
  browser = await openBrowser();
}, 90_000);
afterAll(() => browser?.close());

afterEach(async () => {
  await Promise.all(contexts.map((context) => context.close()));
  contexts = [];
  await served.close();
});

/** A device that trusts the certificate; whether one does is shown in tests/network over real TLS. */
async function device(size: typeof PHONE | typeof LAPTOP, light: 'light' | 'dark' = 'light'): Promise<Page> {
  const context = await browser.newContext({
    ...size,
    colorScheme: light,
    locale: 'en-GB',
    timezoneId: 'Europe/London',
    reducedMotion: 'reduce',
    ignoreHTTPSErrors: true,
  });
  contexts.push(context);
  return context.newPage();
}

async function signIn(page: Page, passphrase = PASSPHRASE, name?: string) {
  await page.getByLabel('Passphrase').fill(passphrase);
  if (name) await page.getByLabel('What to call this device').fill(name);
  await page.getByRole('button', { name: 'Come in' }).click();
}

describe('with the network on', () => {
  beforeEach(async () => {
    served = await openServed({ network: true });
  });

  test('the laptop shows the squares and the fingerprint that the plain page shows too', async () => {
    const page = await device(LAPTOP);
    await page.goto(`${served.address}/settings/phone`);
    const { trust, addresses, fingerprint } = served.network!.kept.standing();
    await page.getByRole('img', { name: trust! }).waitFor();
    await page.getByRole('img', { name: addresses[0]! }).waitFor();
    await page.getByText(fingerprint!).waitFor();
    await page.goto(served.network!.trust);
    await page.getByText(fingerprint!).waitFor();
  });

  test('a phone says the passphrase wrongly, then rightly, and records', async () => {
    const page = await device(PHONE);
    const { address } = served.network!;
    await page.goto(`${address}/ware/begin`);
    await signIn(page, 'gannet grey');
    await page.getByText('That is not the passphrase.').waitFor();
    expect(await page.getByRole('heading', { level: 1 }).first().textContent()).toBe('Say the passphrase');
    await signIn(page, PASSPHRASE, 'Ansa’s phone');
    // The page that it came for stands there, and goes on.
    await page.getByLabel('How many alike', { exact: true }).fill('4');
    await page.getByRole('button', { name: /^Begin/ }).click();
    await page.waitForURL(/\/ware\/(?!begin)/);
    const [begun] = await served.host.log.read(0, 10);
    expect(begun).toMatchObject({ name: 'piece.begun', data: { count: 4 } });
    // Nothing that a script could read lets it in.
    expect(await page.evaluate(() => document.cookie)).toBe('');
  });

  test('after wrong tries it says how long to wait, and lets nobody press meanwhile', async () => {
    const page = await device(PHONE);
    await page.goto(served.network!.address);
    for (const guess of ['one', 'two', 'three', 'four']) await signIn(page, guess);
    await page.getByText(/Try again in/).waitFor();
    expect(await page.getByRole('button', { name: 'Come in' }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Come in' }).and(page.locator(':enabled')).waitFor();
    await signIn(page);
    await page.getByRole('heading', { name: 'Today', level: 1 }).waitFor();
  });

  test('a phone that is sent away from the laptop has to say it again, and keeps what was being entered', async () => {
    const phone = await device(PHONE);
    await phone.goto(`${served.network!.address}/ware/begin`);
    await signIn(phone, PASSPHRASE, 'Ansa’s phone');
    await phone.getByLabel('How many alike', { exact: true }).fill('7');
    const laptop = await device(LAPTOP);
    await laptop.goto(`${served.address}/settings/phone`);
    await laptop.getByRole('button', { name: 'Send away: Ansa’s phone' }).click();
    await laptop.getByRole('button', { name: 'Send it away' }).click();
    await laptop.getByText('No device has come in yet.').waitFor();
    // Its connection is cut, so it notices by itself.
    await phone.getByRole('heading', { name: 'Say the passphrase' }).waitFor();
    await signIn(phone, PASSPHRASE, 'Ansa’s phone');
    await phone.getByLabel('How many alike', { exact: true }).waitFor();
    expect(await phone.getByLabel('How many alike', { exact: true }).inputValue()).toBe('7');
    await phone.getByRole('button', { name: /^Begin/ }).click();
    await phone.getByRole('heading', { name: /7 ×/ }).waitFor();
    const begun = (await served.host.log.read(0, 100)).filter(({ name }) => name === 'piece.begun');
    expect(begun).toMatchObject([{ data: { count: 7 } }]);
  });

  test('a phone signs itself out', async () => {
    const phone = await device(PHONE);
    await phone.goto(`${served.network!.address}/settings/phone`);
    await signIn(phone);
    await phone.getByRole('button', { name: 'Sign this device out' }).click();
    await phone.getByRole('heading', { name: 'Say the passphrase' }).waitFor();
  });

  test.each([
    [PHONE, 'light'],
    [PHONE, 'dark'],
    [LAPTOP, 'light'],
    [LAPTOP, 'dark'],
  ] as const)(
    'nothing is in the way of anybody: signing in, the squares, the plain page (%o, %s)',
    async (size, light) => {
      const page = await device(size, light);
      await page.goto(served.network!.address);
      await page.getByLabel('Passphrase').waitFor();
      expect(await violations(page)).toEqual([]);
      await page.goto(`${served.network!.address}/settings/phone`);
      await signIn(page);
      await page.getByRole('heading', { name: 'Devices that may come in' }).waitFor();
      expect(await violations(page)).toEqual([]);
      await page.goto(served.network!.trust);
      expect(await violations(page)).toEqual([]);
    },
  );
});

test('on the first visit the laptop tells of the phone, sets the passphrase, and shows the squares', async () => {
  served = await openServed({ network: 'no passphrase' });
  const page = await device(LAPTOP);
  await page.goto(served.address);
  await page.getByRole('link', { name: 'How to open it on the phone' }).click();
  await page.getByLabel('Passphrase', { exact: true }).fill('short');
  await page.getByText('10 characters more are advised.').waitFor();
  await page.getByRole('button', { name: 'Set the passphrase' }).click();
  await page.getByText(/at least 8 characters, better 15/).waitFor();
  expect(await violations(page)).toEqual([]);
  await page.getByLabel('Passphrase', { exact: true }).fill(PASSPHRASE);
  await page.getByRole('button', { name: 'Set the passphrase' }).click();
  await page.getByRole('img', { name: /^A square.*https:\/\/hollin-laptop.local/ }).waitFor();
  const entries = await served.host.log.read(0, 10);
  expect(entries).toEqual([]);
});

test('without the network the laptop says how to start it', async () => {
  served = await openServed();
  await served.host.log.head();
  const page = await device(LAPTOP);
  await page.goto(`${served.address}/settings/phone`);
  await page.getByLabel('Passphrase', { exact: true }).fill(PASSPHRASE);
  await page.getByRole('button', { name: 'Set the passphrase' }).click();
  await page.getByText('npm start -- --network').waitFor();
});
