import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import secondsTally from '../../plugins/seconds-tally/index.ts';
import type { Observation } from '../../plugins/seconds-tally/noisy-or/model.ts';
import { observedIn } from '../../plugins/seconds-tally/observed.ts';
import { definePlugin, report } from '../../server/contract/plugin.ts';
import { spansOf } from '../../server/contract/reports/whole-months.ts';
import { studio as studioPlugin } from '../../server/studio/studio.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { fire, type LotIn, stores } from './defect-rates/load.ts';

/** The plugin with one more report, that shows what the model is made from. */
const showing = definePlugin({
  ...secondsTally,
  reports: {
    ...secondsTally.reports,
    observed: report({
      title: 'Observed',
      input: z.strictObject({
        from: z.string().optional(),
        to: z.string().optional(),
        most: z.coerce.number(),
      }),
      run: async (ask, { from, to, most }) => ({
        sentence: 'Seen.',
        rows: (await observedIn(ask, { from, to, owners: ['own'] }, most)).map((it) => ({ ...it })),
        notes: [],
        figures: [],
      }),
    }),
  },
});

/** What pieces alike come to once the firings that are not asked about are left out: the long way round. */
function leavingOut(all: readonly Observation[], kept: readonly string[]): Map<string, number[]> {
  const found = new Map<string, number[]>();
  for (const { present, suspects, count, lost = 0 } of all) {
    const keys = (some: readonly string[]) =>
      some.filter((key) => !key.startsWith('firing=') || kept.includes(key)).join(' ');
    const name = `${keys(present)}|${suspects ? keys(suspects) : 'well'}`;
    const [pieces, money] = found.get(name) ?? [0, 0];
    found.set(name, [pieces! + count, money! + lost]);
  }
  return found;
}

const firingsIn = (all: readonly Observation[]) => [
  ...new Set(all.flatMap(({ present }) => present.filter((key) => key.startsWith('firing=')))),
];

describe('many firings', () => {
  let studio: StudioHost;
  const observed = async (params: Record<string, string>) =>
    (await studio.host.report('seconds-tally', 'observed', params)).rows as unknown as Observation[];

  beforeAll(async () => {
    studio = await studioHost({ plugins: [studioPlugin, showing] });
    await studio.tell(...stores);
    const glazes = ['marram-green', 'cuttle-white', 'samphire-matt'];
    const faults = ['pinholes', 'specks', 'crack', undefined];
    const days = ['2026-01-20', '2026-01-31', '2026-02-01', '2026-02-14', '2026-03-01', '2026-04-30'];
    for (const [n, day] of days.entries()) {
      const lot = (m: number): LotIn => ({
        count: 6,
        seconds: (n * 3 + m * 2) % 6,
        glazes: { outside: glazes[(n + m) % 3]!, inside: glazes[m % 3]! },
        fault: faults[(n + m) % 4],
        clay: m % 2 ? 'fell-white' : 'otterfold-buff',
      });
      await studio.tell(...fire({ firing: `G${n}`, day, lots: [lot(0), lot(1), lot(2)] }));
    }
  });
  afterAll(() => studio.close());

  test.each([
    {},
    { from: '2026-01-25' },
    { from: '2026-01-25', to: '2026-03-15' },
    { from: '2026-02-01', to: '2026-02-28' },
    { from: '2026-02-02', to: '2026-02-20' },
    { to: '2026-04-29' },
  ])('of %o come to the same, summed by month, as told piece by piece', async (time) => {
    const each = await observed({ ...(time as object), most: '99' });
    const some = await observed({ ...(time as object), most: '2' });
    const kept = firingsIn(some);
    expect(kept.length).toBe(Math.min(2, firingsIn(each).length));
    expect(leavingOut(some, kept)).toEqual(leavingOut(each, kept));
    expect(each.reduce((sum, it) => sum + it.count, 0)).toBeGreaterThan(0);
  });
});

describe('a time taken apart into whole months and what is left', () => {
  const day = fc
    .date({ min: new Date('2023-01-01'), max: new Date('2028-12-31'), noInvalidDate: true })
    .map((it) => it.toISOString().slice(0, 10));

  test('has every day of it once, and no other', () => {
    fc.assert(
      fc.property(
        fc.option(day, { nil: undefined }),
        fc.option(day, { nil: undefined }),
        day,
        (a, b, asked) => {
          const [from, to] = a && b && a > b ? [b, a] : [a, b];
          const { months, days } = spansOf(from, to);
          const month = asked.slice(0, 7);
          const times =
            (months && month >= months[0] && month <= months[1] ? 1 : 0) +
            days.filter(([first, last]) => asked >= first && asked <= last).length;
          expect(times).toBe((from ?? '') <= asked && asked <= (to ?? '9999') ? 1 : 0);
        },
      ),
    );
  });
});
