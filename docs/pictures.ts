/**
 * Takes the pictures of the README and the docs from the demo studio on a fixed day: `npm run pictures`.
 * Writes docs/pictures/*.png.
 */
import { mkdirSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { openBrowser } from '../tests/support/browser.ts';
import { EXAMPLE } from './examples/notebook.ts';
import {
  type Act,
  firstOf,
  openStudio,
  PICTURES,
  paper,
  picture,
  type Size,
  type Studio,
} from './picture-studio.ts';

type Take = (name: string, size: Size, path: string, act?: Act) => Promise<void>;

async function takeOfDemo(browser: Browser): Promise<void> {
  const demo = await openStudio(true);
  const take: Take = (...what) => picture(browser, demo, ...what);
  try {
    await take('today', 'phone', '/');
    await takeOfWare(take, demo);
    await takeOfKiln(take, demo);
    await takeOfShop(take);
    await takeOfReview(take);
    await takeOfSettings(take);
  } finally {
    await demo.close();
  }
}

async function takeOfWare(take: Take, { host }: Studio): Promise<void> {
  const piece = await firstOf(host, 'ware', { fault: 'pinholes', grade: 'first' }, 'piece');
  const { rows } = await host.report('studio', 'pictures', { limit: '100' });
  const mended = rows.find(({ shows, grade }) => shows === 'after' && grade === 'first')?.piece;
  if (typeof mended !== 'string') throw new Error('The demo has no picture of a repair that worked.');
  await take('ware', 'laptop', '/ware?stage=here&owner=own');
  await take('story', 'laptop', `/ware/${piece}`, (_, to) => to('Its story'));
  await take('before-after', 'laptop', `/ware/${encodeURIComponent(mended)}`, (_, to) => to('Pictures'));
  await take('wall', 'laptop', '/ware/pictures', (page) => page.locator('.thumb').first().waitFor());
}

async function takeOfKiln(take: Take, studio: Studio): Promise<void> {
  const firing = await firstOf(studio.host, 'firings', { state: 'ended' }, 'firing');
  const draw = `/kilns/${firing}/draw`;
  const press = async (page: Page, ...keys: readonly (string | RegExp)[]) => {
    for (const name of keys) await page.locator('.hand').getByRole('button', { name }).first().click();
  };
  await take('kiln', 'laptop', `/kilns/${firing}`);
  await take('draw', 'phone', draw, (page) => page.locator('.in-hand .thumb img').waitFor());
  await take('fault', 'phone', draw, (page) => press(page, /^(Fault|Not all good)$/));
  await paper(studio, 'opening-sheet', `studio/opening-sheet?firing=${firing}`);
  await paper(studio, 'labels', `studio/labels?firing=${firing}`);
}

async function takeOfShop(take: Take): Promise<void> {
  await take('post', 'laptop', '/post', (page) => page.getByRole('heading', { level: 2 }).first().waitFor());
  await take('templates', 'laptop', '/templates', (page) =>
    page.getByText('House Lantern').first().waitFor(),
  );
}

async function takeOfReview(take: Take): Promise<void> {
  await take('worst-glaze', 'phone', '/review', (page) =>
    page.getByRole('heading', { name: 'What to change' }).waitFor(),
  );
  await take('year', 'laptop', '/review/seconds-tally/year', (page) =>
    page.getByText('What to change').first().waitFor(),
  );
  await take('review', 'laptop', '/review/seconds-tally/by-glaze', (page) =>
    page.getByRole('table').first().waitFor(),
  );
}

async function takeOfSettings(take: Take): Promise<void> {
  await take('phone', 'laptop', '/settings/phone', (page) =>
    page
      .getByRole('img', { name: /^A square/ })
      .first()
      .waitFor(),
  );
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
