/** Files that buyers fetch: who may, until when, how often, and when no longer. */
import { describe, expect, test } from 'vitest';
import type { Item } from '../../../plugins/shop-orders/state/item.ts';
import { A_PDF_SHA256 } from '../../support/a-pdf.ts';
import { done, type Happening } from '../../support/given.ts';
import { given, ordered } from '../../support/shop.ts';
import { studioHost } from '../../support/studio-host.ts';

const JUG = { plugin: 'template-sheets', paper: 'kept', input: { template: 'faceted-jug' } };
const FILE = 'house-lantern-file';
const item = done('2026-01-05', 'item.add', { name: 'House Lantern file', kind: 'download' });
const filled = done('2026-01-06', 'item.give-file', {
  item: FILE,
  file: A_PDF_SHA256,
  called: 'lantern.pdf',
});
const order = ordered('6', '2026-03-03', { lines: [{ item: 'House Lantern file', quantity: 1 }] });
const sold: readonly Happening[] = [item, filled, order];
const grant = (more: object = {}) =>
  done('2026-03-03', 'download.grant', { download: 'd1', order: 'shop/6', line: '1', ...more });
const fetched = (on: string) => done(on, 'download.hand-out', { download: 'd1' });

describe('an item’s file', () => {
  test('is given to it, replaced by a newer one, and both stay in its story', () => {
    const newer = 'cd'.repeat(32);
    const state = given(item, filled)
      .when('item.give-file', { item: FILE, file: newer, called: 'lantern-2.pdf' }, '2026-02-01')
      .state<Item>(`item:${FILE}`);
    expect(state).toMatchObject({ facts: { file: newer }, called: 'lantern-2.pdf' });
    given(item, filled)
      .when('item.give-file', { item: FILE, file: A_PDF_SHA256, called: 'lantern.pdf' }, '2026-02-01')
      .unchanged();
  });

  test('or the paper that it comes from: the one takes the place of the other', () => {
    const withPaper = given(item, filled).when('item.change', { item: FILE, paper: JUG }, '2026-02-01');
    expect(withPaper.state<Item>(`item:${FILE}`).facts).toEqual({
      name: 'House Lantern file',
      kind: 'download',
      paper: JUG,
    });
    const without = given(item, done('2026-01-07', 'item.change', { item: FILE, paper: JUG }));
    expect(
      without.when('item.change', { item: FILE, paper: null }, '2026-02-01').state<Item>(`item:${FILE}`)
        .facts,
    ).toEqual({ name: 'House Lantern file', kind: 'download' });
    const { facts } = without
      .when('item.give-file', { item: FILE, file: A_PDF_SHA256, called: 'a.pdf' }, '2026-02-01')
      .state<Item>(`item:${FILE}`);
    expect(facts?.paper).toBeUndefined();
    expect(facts?.file).toBe(A_PDF_SHA256);
  });

  test('stays with the item when something else about it is changed', () => {
    const { facts } = given(item, filled)
      .when('item.change', { item: FILE, licence: 'For your own pots.' }, '2026-02-01')
      .state<Item>(`item:${FILE}`);
    expect(facts).toMatchObject({ file: A_PDF_SHA256, licence: 'For your own pots.' });
  });
});

describe('a link', () => {
  test('lasts thirty days and five times when nothing else is said', () => {
    given(...sold)
      .when('download.grant', { download: 'd1', order: 'shop/6', line: '1' }, '2026-03-03')
      .then([
        'download.granted',
        { download: 'd1', order: 'shop/6', line: '1', item: FILE, until: '2026-04-02', most: 5 },
      ]);
  });

  test('cannot be made for what has no file, nor for a day that is over', () => {
    given(item, order)
      .when('download.grant', { download: 'd1', order: 'shop/6', line: '1' }, '2026-03-03')
      .refused('no-file', /House Lantern file has no file/);
    given(...sold)
      .when(
        'download.grant',
        { download: 'd1', order: 'shop/6', line: '1', until: '2026-03-02' },
        '2026-03-03',
      )
      .refused('over-already', /2 March 2026 is over/);
  });

  test('can be made for an item that comes from a template', () => {
    given(item, done('2026-01-07', 'item.change', { item: FILE, paper: JUG }), order)
      .when('download.grant', { download: 'd1', order: 'shop/6', line: '1' }, '2026-03-03')
      .recorded();
  });

  test('hands out as often as it may, each time an entry, and then no more', () => {
    const twice = [...sold, grant({ most: 2 }), fetched('2026-03-04')];
    given(...twice)
      .when('download.hand-out', { download: 'd1', paper: 'A3' }, '2026-03-05')
      .then(['download.handed-out', { download: 'd1', order: 'shop/6', time: 2, how: 'link', paper: 'A3' }]);
    given(...twice, fetched('2026-03-05'))
      .when('download.hand-out', { download: 'd1' }, '2026-03-06')
      .refused('download-over', /used twice, which is as often as it could be/);
  });

  test('attached to a message counts like fetched', () => {
    given(
      ...sold,
      grant({ most: 1 }),
      done('2026-03-04', 'download.hand-out', { download: 'd1', how: 'message' }),
    )
      .when('download.hand-out', { download: 'd1' }, '2026-03-05')
      .refused('download-over', /used once/);
  });

  test('can be used on its last day and not on the day after', () => {
    const until = [...sold, grant({ until: '2026-03-10' })];
    given(...until)
      .when('download.hand-out', { download: 'd1' }, '2026-03-10')
      .recorded();
    given(...until)
      .when('download.hand-out', { download: 'd1' }, '2026-03-11')
      .refused('download-over', /until 10 March 2026/);
  });

  test('can be taken back, once, and then hands out nothing, on the same day as well', () => {
    const back = [...sold, grant(), done('2026-03-05', 'download.withdraw', { download: 'd1' })];
    for (const on of ['2026-03-05', '2026-03-06'])
      given(...back)
        .when('download.hand-out', { download: 'd1' }, on)
        .refused('download-over', /taken back/);
    given(...back)
      .when('download.withdraw', { download: 'd1' }, '2026-03-07')
      .unchanged();
    given(...sold)
      .when('download.withdraw', { download: 'd9' }, '2026-03-07')
      .refused('no-such-download');
  });

  test('of an order that is cancelled hands out nothing', () => {
    given(...sold, grant(), done('2026-03-05', 'order.cancel', { order: 'shop/6' }))
      .when('download.hand-out', { download: 'd1' }, '2026-03-06')
      .refused('download-over', /was cancelled/);
  });
});

describe('the message with a file', () => {
  const written = async (...more: readonly Happening[]) => {
    const studio = await studioHost();
    try {
      await studio.tell(...sold, ...more);
      const { more: said } = await studio.host.report('shop-orders', 'message', {
        order: 'shop/6',
        message: 'download',
      });
      return (said as { body?: string } | undefined)?.body;
    } finally {
      await studio.close();
    }
  };

  test('carries the link, how often it may still be used and until when', async () => {
    const until = { until: '2026-07-10', most: 3 };
    expect(await written(grant(until), fetched('2026-03-04'))).toContain(
      'House Lantern file:\n{link:d1}\nIt can be fetched twice, until 10 July 2026.',
    );
  });

  test('says what is attached, and names no link that is over', async () => {
    const attached = done('2026-03-04', 'download.hand-out', { download: 'd1', how: 'message' });
    const body = await written(grant({ until: '2026-07-10' }), attached);
    expect(body).toContain('Attached to this message: House Lantern file.');
    expect(body).not.toContain('{link');
    expect(await written(grant({ until: '2026-05-01' }))).toBeUndefined();
    const back = done('2026-03-05', 'download.withdraw', { download: 'd1' });
    expect(await written(grant({ until: '2026-07-10' }), back)).toBeUndefined();
  });
});
