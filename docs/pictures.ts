/**
 * Takes the pictures of the README from the demo studio on a fixed day: `npm run pictures`.
 * Writes docs/pictures/*.png.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { makeDemo } from '../server/demo/fill.ts';
import type { Host } from '../server/host/host.ts';
import { serve } from '../server/http/serve.ts';
import { importNotebook } from '../server/import/notebook/import.ts';
import { PLUGINS } from '../server/manifest.ts';
import { openHost } from '../server/open-host.ts';
import { LAPTOP, openBrowser, openSeat, PHONE } from '../tests/support/browser.ts';
import { EXAMPLE } from './examples/notebook.ts';

const TODAY = '2026-05-14';
const NOW = new Date(`${TODAY}T09:20:00Z`);
const PICTURES = fileURLToPath(new URL('pictures/', import.meta.url));
const WEB = fileURLToPath(new URL('../dist/web', import.meta.url));

interface Studio {
  readonly host: Host;
  readonly address: string;
  close(): Promise<void>;
}

/** A studio in a folder that is thrown away: the demo, or an empty one. */
async function openStudio(filled: boolean): Promise<Studio> {
  const dir = mkdtempSync(join(tmpdir(), 'wareboard-pictures-'));
  if (filled) await makeDemo(dir, PLUGINS, TODAY);
  const host = await openHost({ dir, plugins: PLUGINS, clock: () => NOW });
  const keeping = {
    instance: 'pictures',
    version: 'pictures',
    folder: dir,
    uploads: { folder: join(dir, 'uploads'), limit: 1 << 24 },
    imports: { notebook: importNotebook },
    backup: () => Promise.reject(new Error('no backups while pictures are taken')),
  };
  const serving = await serve({ host, keeping, web: WEB }, 0);
  const close = async () => {
    await serving.close();
    await host.close();
    rmSync(dir, { recursive: true, force: true });
  };
  return { host, address: serving.address, close };
}

type Size = 'phone' | 'laptop';
/** One dot a pixel keeps the files small; a phone is drawn a little finer. */
const SIZES = { phone: { ...PHONE, deviceScaleFactor: 1.5 }, laptop: LAPTOP } as const;

async function picture(
  browser: Browser,
  { address }: Studio,
  name: string,
  size: Size,
  path: string,
  act: (page: Page) => Promise<void> = async () => {},
): Promise<void> {
  const seat = { size: SIZES[size] as typeof PHONE | typeof LAPTOP };
  const { context, page, faults } = await openSeat(browser, address, seat);
  try {
    await page.clock.setFixedTime(NOW);
    await page.goto(path);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await act(page);
    await page.evaluate(() => document.fonts.ready);
    await page.waitForLoadState('networkidle').catch(() => {});
    await page.screenshot({ path: join(PICTURES, `${name}-${size}.png`), animations: 'disabled' });
    if (faults.length > 0) throw new Error(`${name}: ${faults.join('; ')}`);
    console.log(`${name}-${size}.png`);
  } finally {
    await context.close();
  }
}

async function firstOf(
  host: Host,
  report: string,
  params: Record<string, string>,
  field: string,
): Promise<string> {
  const { rows } = await host.report('studio', report, params);
  const found = rows[0]?.[field];
  if (typeof found !== 'string') throw new Error(`The demo has no ${report} for ${JSON.stringify(params)}.`);
  return encodeURIComponent(found);
}

async function takeOfDemo(browser: Browser): Promise<void> {
  const demo = await openStudio(true);
  try {
    const piece = await firstOf(demo.host, 'ware', { fault: 'pinholes', grade: 'first' }, 'piece');
    const firing = await firstOf(demo.host, 'firings', { state: 'ended' }, 'firing');
    const second = await firstOf(demo.host, 'ware', { stage: 'graded', grade: 'second' }, 'piece');
    await picture(browser, demo, 'today', 'phone', '/');
    await picture(browser, demo, 'ware', 'laptop', '/ware?stage=here&owner=own');
    await picture(browser, demo, 'story', 'laptop', `/ware/${piece}`, async (page) => {
      const story = page.getByRole('heading', { name: 'Its story' });
      await story.evaluate((heading) => heading.scrollIntoView({ block: 'start' }));
    });
    await picture(browser, demo, 'kiln', 'laptop', `/kilns/${firing}`);
    await picture(browser, demo, 'draw', 'phone', `/kilns/${firing}/draw`, async (page) => {
      await page.locator('.in-hand .mark').waitFor();
    });
    const press = async (page: Page, ...keys: readonly (string | RegExp)[]) => {
      for (const name of keys) await page.locator('.hand').getByRole('button', { name }).first().click();
    };
    await picture(browser, demo, 'fault', 'phone', `/kilns/${firing}/draw`, (page) =>
      press(page, /^(Fault|Not all good)$/),
    );
    await picture(browser, demo, 'zone', 'phone', `/kilns/${firing}/draw`, (page) =>
      press(page, /^(Fault|Not all good)$/, 'runs'),
    );
    await picture(browser, demo, 'find', 'phone', '/', async (page) => {
      await page.getByRole('searchbox').first().fill('jug');
      await page.locator('.find-row').first().waitFor();
    });
    await picture(browser, demo, 'repair', 'phone', `/ware/${second}/repair`, async (page) => {
      await page.getByRole('radio', { name: 'grind' }).waitFor();
    });
    await picture(browser, demo, 'today', 'laptop', '/');
    await picture(browser, demo, 'calendar', 'laptop', '/settings', async (page) => {
      await page.getByRole('button', { name: 'Make an address' }).click();
      // A secret is shown to nobody, not even a made-up one.
      const address = page.getByLabel('Address of the calendar');
      await address.evaluate((field: HTMLInputElement) => {
        field.value = 'https://studio.example/calendar/….ics';
      });
      const about = page.getByRole('heading', { name: 'Calendar' });
      await about.evaluate((heading) => heading.scrollIntoView({ block: 'start' }));
    });
    await picture(browser, demo, 'keys', 'laptop', '/keys');
    await picture(browser, demo, 'review', 'laptop', '/review/seconds-tally/by-glaze', async (page) => {
      await page.getByRole('table').first().waitFor();
    });
  } finally {
    await demo.close();
  }
}

/** A notebook is brought into a studio that has nothing yet. */
async function takeOfImport(browser: Browser): Promise<void> {
  const empty = await openStudio(false);
  try {
    await picture(browser, empty, 'import', 'laptop', '/import', async (page) => {
      await page.locator('input[type=file]').setInputFiles(EXAMPLE);
      await page.locator('.import-do').waitFor();
    });
  } finally {
    await empty.close();
  }
}

mkdirSync(PICTURES, { recursive: true });
const browser = await openBrowser();
try {
  await takeOfDemo(browser);
  await takeOfImport(browser);
} finally {
  await browser.close();
}
