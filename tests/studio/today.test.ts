import { afterAll, beforeAll, expect, test } from 'vitest';
import { waitingRow } from '../../server/contract/telling.ts';
import { gather } from '../../server/http/tellings.ts';
import { middleHours } from '../../server/studio/reports/usually.ts';
import { done, type Happening } from '../support/given.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, JUG, materials, TILES } from '../support/yard.ts';

let studio: StudioHost;
beforeAll(async () => {
  studio = await studioHost();
});
afterAll(() => studio.close());

const bisque = (n: number, drawnAt: string): readonly Happening[] => {
  const piece = `01980000-0000-7000-8000-0000000001${String(n).padStart(2, '0')}`;
  const firing = `b${n}`;
  const day = `2026-05-0${n}`;
  return [
    done('2026-04-01', 'piece.begin', { piece, mark: `M${n}`, form: 'tile' }),
    done(`${day}T08:00:00+01:00`, 'firing.pack', {
      firing,
      kiln: 'big-round',
      role: 'bisque',
      places: [{ piece }],
    }),
    done(`${day}T09:00:00+01:00`, 'firing.light', { firing }),
    done(`${day}T18:00:00+01:00`, 'firing.end', { firing }),
    done(drawnAt, 'firing.draw', { firing }),
  ];
};

test('the middle of the hours that a kiln was left closed is said only when three firings are known to the minute', () => {
  const past = (hours: number) => ({
    ended: '2026-05-01T00:00:00Z',
    drawn: new Date(Date.UTC(2026, 4, 1, hours)).toISOString(),
  });
  expect(middleHours([past(20), past(30)])).toBeNull();
  expect(middleHours([past(20), past(30), past(22)])).toBe(22);
  expect(middleHours([past(20), past(30), { ended: '2026-05-01', drawn: '2026-05-02' }])).toBeNull();
});

test('today lists the kilns first, each with since when it cools and when such a firing was usually drawn', async () => {
  await studio.tell(
    ...materials,
    ...bisque(1, '2026-05-02T14:00:00+01:00'),
    ...bisque(3, '2026-05-04T16:00:00+01:00'),
    ...bisque(5, '2026-05-06T20:00:00+01:00'),
    begin(TILES, 12, '2026-06-01'),
    begin(JUG, 1, '2026-06-01'),
    done('2026-06-29T07:00:00+01:00', 'firing.pack', {
      firing: 'b-now',
      kiln: 'big-round',
      label: 'Bisque, midsummer',
      role: 'bisque',
      places: [{ piece: TILES }],
    }),
    done('2026-06-29T08:00:00+01:00', 'firing.light', { firing: 'b-now' }),
    done('2026-06-29T18:00:00+01:00', 'firing.end', { firing: 'b-now' }),
  );
  const { rows, sentence } = await studio.host.report('studio', 'today', {});
  expect(rows.map(({ does, what, where }) => [does, what, where])).toEqual([
    ['draw', 'Bisque, midsummer', 'Big Round'],
    ['dry', 'tile', undefined],
  ]);
  // 20, 22 and 26 hours before; the middle is 22.
  expect(rows[0]).toMatchObject({ since: '2026-06-29T18:00:00+01:00', usually: '2026-06-30T15:00:00.000Z' });
  expect(sentence).toBe('2 things wait.');
  for (const row of rows) expect(waitingRow.safeParse(row).success).toBe(true);
});

test('a plugin whose rows cannot be had is named, and the others are told all the same', async () => {
  const plugins = studio.host.registry.plugins;
  const broken = {
    ...studio.host,
    registry: {
      plugins: [...plugins, { ...plugins[0]!, id: 'shelf', reports: { due: { tells: 'waiting' } } }],
    },
    report: (plugin: string, name: string) =>
      plugin === 'shelf'
        ? Promise.resolve({ rows: [{ what: 'pots' }] })
        : studio.host.report(plugin, name, {}),
  } as never;
  const { told, failed } = await gather(broken, 'waiting');
  expect(told.map(({ plugin, rows }) => [plugin, rows.length])).toContainEqual(['studio', 2]);
  expect(failed).toEqual([{ plugin: 'shelf', sentence: expect.stringMatching(/^Row 0\.does of “due”/) }]);
});

test('every mark in the studio is in the short list, and the firings are in the calendar’s', async () => {
  const { rows } = await studio.host.report('studio', 'marks', {});
  expect(rows).toContainEqual({
    mark: 'bb',
    piece: JUG,
    count: 1,
    form: 'tile',
    stage: 'made',
    firing: null,
  });
  const dates = await studio.host.report('studio', 'dates', {});
  expect(dates.rows.at(-1)).toMatchObject({
    uid: 'firing-b-now',
    what: 'Bisque, midsummer',
    from: '2026-06-29T08:00:00+01:00',
    until: '2026-06-29T18:00:00+01:00',
  });
});
