/**
 * What the page takes on a slow phone: `npm run bench:page [RUNS]`. A studio with 5,000 live pieces, the
 * processor four times slower, the network a slow 4G; prints a table for docs/explanation/page-speed.md.
 */
import { availableParallelism, loadavg } from 'node:os';
import type { Browser, CDPSession, Page } from 'playwright-core';
import { openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { type FullStudio, fiveThousand } from './full-studio.ts';
import { median, percentile } from './measure.ts';

/** Lighthouse's slow 4G, https://github.com/GoogleChrome/lighthouse core/config/constants.js (mobileSlow4G). */
const SLOW_4G = { latency: 150, downloadThroughput: (1638.4 * 1024) / 8, uploadThroughput: (750 * 1024) / 8 };
const SLOWER = 4;

interface FirstLoad {
  readonly bytes: number;
  readonly paint: number;
}

async function slow(page: Page): Promise<CDPSession> {
  const session = await page.context().newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', { offline: false, ...SLOW_4G });
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  return session;
}

/** Script and style that came, compressed, by the time the first screen stands; and its largest paint. */
async function firstLoad(browser: Browser, address: string): Promise<FirstLoad> {
  const { page, context } = await openSeat(browser, address, { size: PHONE });
  const session = await slow(page);
  const kinds = new Map<string, string>();
  let bytes = 0;
  session.on('Network.responseReceived', ({ requestId, type }) => kinds.set(requestId, type));
  session.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
    if (['Script', 'Stylesheet'].includes(kinds.get(requestId) ?? '')) bytes += encodedDataLength;
  });
  await page.goto('/', { waitUntil: 'commit' });
  await page.getByRole('heading', { level: 2 }).first().waitFor();
  const atFirstScreen = bytes;
  await page.waitForLoadState('load');
  const paint = await page.evaluate(
    () =>
      new Promise<number>((told) => {
        new PerformanceObserver((list) => told(list.getEntries().at(-1)!.startTime)).observe({
          type: 'largest-contentful-paint',
          buffered: true,
        });
      }),
  );
  await context.close();
  return { bytes: atFirstScreen, paint };
}

/** Longest time from touch or key to the next frame, of each interaction (the Event Timing API). */
async function watchInteractions(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const longest = new Map<number, number>();
    Object.assign(globalThis, { longest });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & { interactionId: number })[])
        if (entry.interactionId > 0)
          longest.set(entry.interactionId, Math.max(longest.get(entry.interactionId) ?? 0, entry.duration));
    }).observe({ type: 'event', durationThreshold: 16, buffered: true } as PerformanceObserverInit);
  });
}

const interactions = (page: Page): Promise<number[]> =>
  page.evaluate(() => [...(globalThis as unknown as { longest: Map<number, number> }).longest.values()]);

type Scene = readonly [name: string, act: (page: Page, studio: FullStudio) => Promise<void>];

const SCENES: readonly Scene[] = [
  [
    'find a piece by its mark, letter by letter',
    async (page, { mark }) => {
      await page.goto('/');
      await page.getByRole('heading', { level: 2 }).first().waitFor();
      await page.getByRole('searchbox').first().tap();
      for (const symbol of mark) await page.keyboard.press(symbol);
      await page.locator('.find-row').first().waitFor();
    },
  ],
  [
    'go from place to place',
    async (page) => {
      await page.goto('/');
      for (const place of ['Ware', 'Kilns', 'Review', 'Today']) {
        await page.getByRole('navigation').getByRole('link', { name: place, exact: true }).first().tap();
        await page.getByRole('heading', { level: 1, name: place }).waitFor();
      }
    },
  ],
  [
    'draw a kiln: six pieces good, one with a fault',
    async (page, { toDraw }) => {
      await page.goto(`/kilns/${toDraw}/draw`);
      for (let n = 0; n < 6; n += 1) {
        const before = await page.locator('.in-hand .mark').textContent();
        await page.getByRole('button', { name: 'Good', exact: true }).tap();
        await page.locator('.in-hand .mark').filter({ hasNotText: before! }).waitFor();
      }
      for (const key of ['Fault', 'pinholes', 'inside', 'Second'])
        await page.getByRole('button', { name: key, exact: true }).tap();
    },
  ],
  [
    'pack a kiln: six pieces on a shelf',
    async (page) => {
      await page.goto('/kilns/pack?role=bisque');
      const boxes = page.getByRole('checkbox');
      await boxes.nth(8).waitFor();
      for (let n = 2; n < 8; n += 1) await boxes.nth(n).tap();
    },
  ],
  [
    'look through the ware, and narrow it by words',
    async (page) => {
      await page.goto('/ware');
      const box = page.getByLabel('Find by code or words');
      await box.tap();
      await page.keyboard.type('beaker');
      await page.getByRole('listitem').first().waitFor();
    },
  ],
];

async function measured(browser: Browser, studio: FullStudio, [, act]: Scene): Promise<number[]> {
  const { page, context } = await openSeat(browser, studio.address, { size: PHONE });
  page.setDefaultTimeout(30_000);
  await watchInteractions(page);
  await slow(page);
  await act(page, studio);
  const found = await interactions(page);
  await context.close();
  return found;
}

const row = (...cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
const verdict = (good: boolean): string => (good ? 'reached' : '**not reached**');

const runs = Number(process.argv[2] ?? 5);
const studio = await fiveThousand();
const browser = await openBrowser();
try {
  const loads: FirstLoad[] = [];
  for (let n = 0; n < runs; n += 1) loads.push(await firstLoad(browser, studio.address));
  const bytes = Math.max(...loads.map((load) => load.bytes)) / 1000;
  const paint = median(loads.map((load) => load.paint));
  console.log(row('what', 'measured', 'aim'));
  console.log('|---|--:|---|');
  console.log(
    row(
      'script and style of the first screen, compressed',
      `${bytes.toFixed(1)} kB`,
      `under 100 kB: ${verdict(bytes < 100)}`,
    ),
  );
  console.log(
    row(
      `largest paint of Today, first visit, middle of ${runs}`,
      `${(paint / 1000).toFixed(2)} s`,
      `under 1.5 s: ${verdict(paint < 1500)}`,
    ),
  );
  const all: number[] = [];
  for (const scene of SCENES) {
    const found = await measured(browser, studio, scene);
    all.push(...found);
    console.log(row(scene[0], `${percentile(found, 0.75).toFixed(0)} ms (of ${found.length})`, ''));
  }
  const overall = percentile(all, 0.75);
  console.log(
    row(
      `all interactions, 75th percentile of ${all.length}`,
      `${overall.toFixed(0)} ms`,
      `under 100 ms: ${verdict(overall < 100)}`,
    ),
  );
  console.log(`\n${loadavg()[0]!.toFixed(1)} processes wanted ${availableParallelism()} cores meanwhile.`);
} finally {
  await browser.close();
  await studio.close();
}
