/** Every screen, on a phone and on a laptop, by day and by night, against WCAG 2.2 A and AA as axe checks them. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import type { Unsent } from '../../web/outbox/unsent.ts';
import { violations } from '../support/axe.ts';
import { LAPTOP, openBrowser, openSeat, PHONE } from '../support/browser.ts';
import { everyFigure } from '../support/figures.ts';
import { hangPictures } from '../support/hung.ts';
import { openServed, type Served } from '../support/served.ts';
import { smallYard, type Yard } from '../support/small-yard.ts';

/** Its answer is replaced by one with every kind of figure that a plugin can give. */
const FIGURES = '/review/seconds-tally/by-kiln';

/** Each screen with words that stand on it once it has been filled, and the keys that lead on to a step of it. */
const screens = ({
  pieces,
  firings,
}: Yard): readonly (readonly [name: string, path: string, filled: string, taps?: readonly string[]])[] => [
  ['Today', '/', 'Kilns to draw'],
  ['Ware', '/ware', 'altar lamp'],
  [
    'Ware, narrowed in the past',
    '/ware?stage=graded&grade=second&as-at=2026-06-30',
    'You are looking at the past',
  ],
  ['Ware, nothing found', '/ware?q=teapot', 'No ware matches'],
  ['the wall', '/ware/pictures', 'What came out, by glaze'],
  ['the wall of one firing', '/ware/pictures?by=firing&key=g8', 'Glaze 8'],
  ['begin', '/ware/begin', 'How many alike'],
  ['a piece', `/ware/${pieces.jug}`, 'Facets cut at leather-hard'],
  ['glaze', `/ware/${pieces.plates}/glaze`, 'Layers on this zone'],
  ['split', `/ware/${pieces.plates}/split`, 'stay together'],
  ['fault', `/ware/${pieces.jug}/fault`, 'stilt marks'],
  ['grade', `/ware/${pieces.beakers}/grade`, 'not graded yet'],
  ['repair', `/ware/${pieces.jug}/mend`, 'refire upside down'],
  ['leave', `/ware/${pieces.jug}/leave`, 'broken up'],
  ['Kilns', '/kilns', 'To draw'],
  ['pack', '/kilns/pack?role=glaze', 'side plate'],
  ['a firing to light', `/kilns/${firings.toLight}`, 'Light the kiln'],
  ['a firing to draw', `/kilns/${firings.toDraw}`, 'Isolate the kiln'],
  ['a firing drawn', '/kilns/g8', 'What came out'],
  ['draw', `/kilns/${firings.toDraw}/draw`, 'to look over'],
  ['draw, what is seen', `/kilns/${firings.toDraw}/draw`, 'to look over', ['Fault']],
  ['draw, where', `/kilns/${firings.toDraw}/draw`, 'to look over', ['Fault', 'runs']],
  ['draw, graded', `/kilns/${firings.toDraw}/draw`, 'to look over', ['Fault', 'runs', 'foot']],
  [
    'draw, repair',
    `/kilns/${firings.toDraw}/draw`,
    'to look over',
    ['Fault', 'runs', 'foot', 'A second, to be mended'],
  ],
  [
    'draw, one not packed',
    `/kilns/${firings.toDraw}/draw`,
    'to look over',
    ['Something else', 'One here was not packed'],
  ],
  [
    'draw, the load',
    `/kilns/${firings.toDraw}/draw`,
    'to look over',
    ['Something else', 'Take another piece'],
  ],
  ['Post', '/post', 'Orders will stand here'],
  ['write down an order', '/post/new', 'What is ordered'],
  ['bring in orders', '/post/import', 'Choose the file'],
  ['items', '/post/items', 'What you sell by post'],
  ['all orders', '/post/orders', 'No order matches'],
  ['the shop', '/post/shop', 'What the post costs'],
  ['Review', '/review', 'Seconds and wasters by month'],
  ['the fault guide', '/review/defect-rates/fault-guide', 'Shivering'],
  ['a fault’s guide', '/review/defect-rates/fault-guide?fault=runs', 'What the books suspect'],
  ['the year', '/review/seconds-tally/year', 'What to change'],
  ['a tally', '/review/seconds-tally/by-month?from=2026-01-01&to=2026-12-31', 'graded pieces'],
  ['every kind of figure', FIGURES, 'goes wrong most often'],
  [
    'the pieces behind',
    '/review/seconds-tally/pieces?by=glaze&key=quicksilver-run&grade=waster',
    'The pieces behind',
  ],
  ['Log', '/log', 'Note written'],
  ['Materials', '/materials', 'Quicksilver Run'],
  ['People', '/people', 'Iris Quillfeather'],
  ['Settings', '/settings', 'Time zone of the studio'],
  ['On the phone', '/settings/phone', 'First set a passphrase'],
  ['Import', '/import', 'Choose the file'],
  ['find', '/find', 'hold its label in front'],
  ['Templates', '/templates', 'In the round'],
  ['Keys', '/keys', 'While drawing a kiln'],
  ['tell an owner', `/ware/${pieces.lamp}/tell`, 'Iris Quillfeather'],
  ['Index', '/index', 'one step behind'],
  ['no such page', '/ware/begin/again/and/again', 'nothing at this address'],
];

let served: Served;
let browser: Browser;
let yard: Yard;

beforeAll(async () => {
  [served, browser] = await Promise.all([openServed(), openBrowser()]);
  yard = await smallYard(served.host);
  await hangPictures(served.host, yard);
}, 90_000);

afterAll(async () => {
  await browser?.close();
  await served?.close();
});

/** What is tucked away is looked at too; of a long list the first few. */
async function openAll(page: Page): Promise<void> {
  await page.evaluate(() => {
    for (const details of [...document.querySelectorAll<HTMLDetailsElement>('main details')].slice(0, 12))
      details.open = true;
  });
  await page.evaluate(
    () => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))),
  );
}

/** By day and by night, all that is on it; and whether it is wider than the screen. */
async function whatIsWrong(page: Page): Promise<string[]> {
  await openAll(page);
  const byDay = await violations(page);
  await page.emulateMedia({ colorScheme: 'dark' });
  const byNight = await violations(page);
  const wide = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  return [
    ...byDay,
    ...byNight.map((each) => `by night ${each}`),
    ...(wide > 0 ? [`${wide} px wider than the screen`] : []),
  ];
}

const SAID_OTHERWISE = {
  refused: true,
  code: 'said-otherwise',
  sentence: 'In the meantime another device recorded something else.',
} as const;

const unsent = (state: Unsent['state'], piece: string): Omit<Unsent, 'n'> => ({
  id: `01980000-0000-7000-8000-00000000${state === 'refused' ? 'aaaa' : 'bbbb'}`,
  command: 'piece.grade',
  input: { piece, first: 1 },
  clock: '2026-11-24T16:05:00.000+00:00',
  needs: [],
  sentence: 'VYKAD faceted jug: first.',
  where: `/ware/${piece}`,
  state,
});

/** What the other device said meanwhile. */
const graded = (piece: string): Entry =>
  ({
    ...{ seq: 9_999, id: 'other', command: 'other', part: 0, name: 'piece.graded', version: 1 },
    streams: [`piece:${piece}`],
    ...{ happenedAt: '2026-11-24', recordedAt: '2026-11-24T15:00:00.000Z', who: 'ansa', device: 'laptop' },
    data: { piece, second: 1 },
  }) as unknown as Entry;

/** Puts orders among those that wait on this device. */
const keepUnsent = (page: Page, orders: readonly Omit<Unsent, 'n'>[]) =>
  page.evaluate(
    (all) =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open('wareboard');
        opening.onsuccess = () => {
          const keeping = opening.result.transaction('outbox', 'readwrite');
          for (const each of all) keeping.objectStore('outbox').add(each);
          keeping.oncomplete = () => {
            opening.result.close();
            done();
          };
          keeping.onerror = () => fail(keeping.error);
        };
      }),
    orders,
  );

describe.each([
  ['a phone', PHONE],
  ['a laptop', LAPTOP],
] as const)('on %s', (_, size) => {
  test('no screen shuts anyone out', async () => {
    const { page, context, faults } = await openSeat(browser, served.address, { size });
    page.setDefaultTimeout(30_000);
    await page.route(`**/api/reports${FIGURES.slice('/review'.length)}*`, (route) =>
      route.fulfill({ json: everyFigure }),
    );
    const wrong: Record<string, string[]> = {};
    for (const [name, path, filled, taps = []] of screens(yard)) {
      await page.emulateMedia({ colorScheme: 'light' });
      await page.goto(path);
      await page.getByText(filled).first().waitFor();
      for (const key of taps) await page.getByRole('button', { name: key, exact: true }).click();
      const found = await whatIsWrong(page);
      if (found.length > 0) wrong[name] = found;
    }
    expect(wrong).toEqual({});
    expect(faults).toEqual([]);
    await context.close();
  }, 600_000);

  test('nor do those of a device that the studio does not hear', async () => {
    const { page, context } = await openSeat(browser, served.address, { size });
    page.setDefaultTimeout(30_000);
    const { jug } = yard.pieces;
    await page.goto('/unsent');
    await page.getByText('are kept on this device').waitFor();
    await page.route('**/api/**', (route) => route.abort());
    await page.goto(`/ware/${jug}/note`);
    await page.getByLabel('Note').fill('the spout pours cleanly');
    await page.getByRole('button', { name: 'Write it down' }).click();
    await page.getByText('1 entry waiting to be sent').first().waitFor();
    await keepUnsent(page, [
      { ...unsent('refused', jug!), refused: { ...SAID_OTHERWISE, meanwhile: [graded(jug!)] } },
      { ...unsent('left-out', jug!), refused: SAID_OTHERWISE, why: 'The other entry is right.' },
    ]);
    const wrong: Record<string, string[]> = {};
    for (const [name, path, filled] of [
      ['what waits', '/unsent', 'For you to decide'],
      ['Today', '/', 'The studio is not heard'],
      ['a piece', `/ware/${jug}`, '1 entry needs you'],
      ['draw', `/kilns/${yard.firings.toDraw}/draw`, 'to look over'],
      ['what is not kept here', '/review/seconds-tally/by-clay', 'not'],
    ] as const) {
      await page.emulateMedia({ colorScheme: 'light' });
      await page.goto(path);
      await page.getByText(filled).first().waitFor();
      const found = await whatIsWrong(page);
      if (found.length > 0) wrong[name] = found;
    }
    expect(wrong).toEqual({});
    await context.close();
  }, 120_000);
});
