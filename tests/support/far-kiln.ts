/**
 * A phone at a kiln that the network does not reach: the program in a process of its own that can be killed,
 * two glaze kilns to draw, and a laptop that notes things meanwhile.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import { openBrowser, PHONE } from './browser.ts';
import { OwnProcess } from './own-process.ts';

/** Beakers in G1 one by one, then a lot of six bowls; four cups in G2. */
export const BEAKERS = 7;
export const CUPS = 4;

const id = (n: number) => `01980000-0000-7000-8000-0000000002${String(n).padStart(2, '0')}`;
export const beaker = (n: number): string => id(n);
export const bowls = id(40);
export const cup = (n: number): string => id(50 + n);

interface CameOut {
  readonly mark: string | null;
  readonly form: string;
  readonly count: number;
  readonly grade: string | null;
  readonly faults: readonly { readonly kind: string; readonly zone: string | null }[];
}

let orders = 0;
export function order(command: string, input: object, happenedAt: string) {
  orders += 1;
  return { id: `01980000-0000-7000-8000-${String(orders).padStart(12, '0')}`, command, input, happenedAt };
}

const oneToLast = (last: number) => Array.from({ length: last }, (_, n) => n + 1);
const G1 = [...oneToLast(BEAKERS).map(beaker), bowls];
const G2 = oneToLast(CUPS).map(cup);

const fire = (firing: string, kiln: string, role: string, day: string, pieces: readonly string[]) => [
  order(
    'firing.pack',
    { firing, label: firing, kiln, role, places: pieces.map((piece) => ({ piece, shelf: 1 })) },
    day,
  ),
  order('firing.light', { firing }, day),
  order('firing.end', { firing }, day),
];

const begin = (piece: string, mark: string, form: string, count = 1) =>
  order('piece.begin', { piece, form, clay: 'fell-white', mark, count }, '2026-05-02');

const yard = () => [
  order('kiln.add', { name: 'Big Round' }, '2026-05-01'),
  order('kiln.add', { name: 'Small Square' }, '2026-05-01'),
  order('clay.add', { name: 'Fell White' }, '2026-05-01'),
  order('glaze.add', { name: 'Gannet Grey' }, '2026-05-01'),
  ...oneToLast(BEAKERS).map((n) => begin(beaker(n), `BEAK-${n}`, 'beaker')),
  begin(bowls, 'BOWLS', 'bowl', 6),
  ...oneToLast(CUPS).map((n) => begin(cup(n), `CUP-${n}`, 'cup')),
  ...fire('B1', 'big-round', 'bisque', '2026-05-10', [...G1, ...G2]),
  order('firing.draw', { firing: 'B1' }, '2026-05-10'),
  ...[...G1, ...G2].map((piece) =>
    order(
      'glaze.apply',
      { piece, zone: 'outside', layers: [{ glaze: 'gannet-grey', coats: 2 }] },
      '2026-05-12',
    ),
  ),
  ...fire('G1', 'big-round', 'glaze', '2026-05-20', G1),
  ...fire('G2', 'small-square', 'glaze', '2026-05-20', G2),
];

export class FarKiln {
  readonly studio = new OwnProcess();
  /** Errors of any page. */
  readonly faults: string[] = [];
  browser!: Browser;
  context!: BrowserContext;
  page!: Page;

  async open(): Promise<void> {
    OwnProcess.build();
    [this.browser] = await Promise.all([openBrowser(), this.studio.start()]);
    await this.tell(...yard());
    await this.newPhone();
  }

  /** A phone that has never been here. */
  async newPhone(): Promise<void> {
    await this.context?.close();
    this.context = await this.browser.newContext({
      ...PHONE,
      locale: 'en-GB',
      timezoneId: 'Europe/London',
      baseURL: this.studio.address,
      reducedMotion: 'reduce',
    });
  }

  async close(): Promise<void> {
    await this.browser?.close();
    await this.studio.end();
  }

  /** Said by the laptop. */
  async tell(...commands: readonly object[]): Promise<void> {
    const answer = await fetch(`${this.studio.address}/api/commands`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'x-wareboard-device': 'laptop' },
      body: JSON.stringify({ commands }),
    });
    const { outcomes } = (await answer.json()) as { outcomes: { outcome: string }[] };
    expect(outcomes.map(({ outcome }) => outcome)).toEqual(commands.map(() => 'recorded'));
  }

  async entries(): Promise<readonly Entry[]> {
    const answer = await fetch(`${this.studio.address}/api/log?limit=1000`);
    return ((await answer.json()) as { entries: Entry[] }).entries;
  }

  /** What the studio's record says came out of a firing: mark, count of a lot, grade, faults. */
  async cameOut(firing: string): Promise<string[]> {
    const answer = await fetch(`${this.studio.address}/api/reports/studio/firing?firing=${firing}`);
    const { rows } = (await answer.json()) as { rows: CameOut[] };
    return rows.map(({ mark, count, form, grade, faults }) =>
      [mark ?? form, ...(count > 1 ? [count] : []), grade, ...faults.map((f) => `${f.kind}@${f.zone}`)].join(
        ' ',
      ),
    );
  }

  async openPage(at = '/'): Promise<Page> {
    this.page = await this.context.newPage();
    this.page.setDefaultTimeout(30_000);
    this.page.on('pageerror', (error) => this.faults.push(String(error)));
    await this.page.goto(at);
    return this.page;
  }

  /** The first visit: the page and the day's work are put by. A device that has noted something holds foot marks too. */
  async firstVisit(): Promise<void> {
    const page = await this.openPage();
    await page.getByText('Kilns to draw').waitFor();
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.goto(`/ware/${beaker(BEAKERS)}/note`);
    await page.getByLabel('Note').fill('the handle is a little low');
    await this.button('Write it down').click();
    await page.locator('.done').waitFor();
    await page.goto('/unsent');
    await page.getByText('2 firings and 12 lots are kept on this device.').waitFor();
    await page.getByText('foot marks in reserve').waitFor();
  }

  /** The network is cut and the program killed. */
  async cut(): Promise<void> {
    await this.context.setOffline(true);
    await this.studio.kill();
  }

  button(name: string | RegExp) {
    return this.page.getByRole('button', { name, exact: typeof name === 'string' });
  }

  async press(...names: readonly (string | RegExp)[]): Promise<void> {
    for (const name of names) await this.button(name).first().click();
  }

  /** Said in the line above every screen. */
  async stands(text: string | RegExp): Promise<void> {
    await this.page.locator('.stands').getByText(text).first().waitFor();
  }

  async inHand(mark: string): Promise<void> {
    await this.page.locator('.in-hand').getByText(mark).waitFor();
  }
}
