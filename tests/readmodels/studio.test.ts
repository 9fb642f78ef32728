/** The core lists and the tally, over whatever a studio may record: rows as of a plain replay, however they came about. */
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import tally from '../../plugins/seconds-tally/index.ts';
import type { Entry } from '../../server/contract/entry.ts';
import type { Host, Past } from '../../server/host/host.ts';
import { studio } from '../../server/studio/studio.ts';
import { dumped, filtered, replayed } from '../support/replay.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { JUG, materials, TILES } from '../support/yard.ts';

const PLUGINS = [studio, tally];
const RUNS = Number(process.env.STUDIO_SEQUENCES ?? (process.env.CI ? 60 : 8));
const LOTS = [TILES, JUG];

type Step = {
  readonly what:
    | 'glaze'
    | 'bisque'
    | 'glaze-fire'
    | 'fault'
    | 'grade'
    | 'split'
    | 'leave'
    | 'strike'
    | 'move-on';
  readonly lot: number;
  readonly some: number;
  /** Days noted late. */
  readonly late: number;
};

const often = (what: Step['what'], weight: number) => ({ weight, arbitrary: fc.constant(what) });
const step: fc.Arbitrary<Step> = fc.record({
  what: fc.oneof(
    often('move-on', 1),
    often('bisque', 3),
    often('glaze', 4),
    often('glaze-fire', 4),
    often('fault', 3),
    often('grade', 4),
    often('split', 2),
    often('leave', 1),
    often('strike', 3),
  ),
  lot: fc.nat({ max: 1 }),
  some: fc.integer({ min: 1, max: 4 }),
  late: fc.constantFrom(0, 0, 0, 0, 1, 5),
});

const dayAfter = (days: number) => new Date(Date.UTC(2026, 1, 1 + days)).toISOString().slice(0, 10);

class Yard {
  private days = 0;
  private firings = 0;

  constructor(private readonly studio: StudioHost) {}

  /** What is asked may well be refused: that is the studio's business. */
  async take({ what, lot, some, late }: Step): Promise<void> {
    this.days += 1;
    const on = dayAfter(this.days - late);
    const piece = LOTS[lot]!;
    const ask = (command: string, input: unknown) => this.studio.ask(command, input, on);
    if (what === 'move-on') await ask('piece.move-on', { piece, stage: 'bone-dry' });
    if (what === 'glaze')
      await ask('glaze.apply', {
        piece,
        layers: [{ glaze: ['marram-green', 'cuttle-white'][some % 2], coats: some }],
      });
    if (what === 'fault') await ask('fault.find', { piece, kind: 'pinholes', zone: 'inside', count: some });
    if (what === 'split') await ask('lot.split', { piece, into: [{ count: some }] });
    if (what === 'leave')
      await ask('piece.leave', { piece, how: 'sold', price: { amount: 900, currency: 'GBP' } });
    if (what === 'strike') await this.strike(some);
    if (what === 'bisque' || what === 'glaze-fire')
      await this.fire(what === 'bisque' ? 'bisque' : 'glaze', on, some);
    if (what === 'grade') await this.grade(piece, some, on);
  }

  private async fire(role: string, on: string, some: number): Promise<void> {
    const firing = `F${++this.firings}`;
    const places = LOTS.slice(0, 1 + (some % 2)).map((piece) => ({ piece, shelf: some }));
    await this.studio.ask(
      'firing.pack',
      { firing, label: firing, kiln: 'big-round', schedule: 'glaze-6-plain', role, places },
      on,
    );
    for (const command of ['firing.light', 'firing.end', 'firing.draw'])
      await this.studio.ask(command, { firing }, on);
  }

  private async grade(piece: string, some: number, on: string): Promise<void> {
    const { rows } = await this.studio.host.report('studio', 'ware', {});
    const count = Number(rows.find((it) => it.piece === piece)?.count ?? some);
    const second = Math.min(some - 1, count);
    const price = { amount: 2400, currency: 'GBP' };
    await this.studio.ask('piece.grade', { piece, first: count - second, second, price }, on);
  }

  /** The newest entries but a few, with all that rests on it; now and then a strike. */
  private async strike(back: number): Promise<void> {
    const { count } = await this.studio.host.log.head();
    await this.studio.ask('entry.strike', {
      seqs: [count - back + 1],
      withResting: true,
      why: 'noted on the wrong lot',
    });
  }
}

const everything = async (host: Host): Promise<Entry[]> => host.log.read(0, Number.MAX_SAFE_INTEGER);

async function compare({ host, dir }: StudioHost, past: Past): Promise<void> {
  const words = {
    ...(past.asAt ? { 'as-at': past.asAt } : {}),
    ...(past.knownAt ? { 'known-at': past.knownAt } : {}),
  };
  const entries = filtered(await everything(host), past, (await host.settings()).zone);
  for (const plugin of PLUGINS) {
    await host.report(plugin.id, plugin === studio ? 'ware' : 'by-glaze', words);
    const name =
      Object.keys(words).length === 0
        ? plugin.id
        : join('past', [plugin.id, past.asAt ?? 'now', past.knownAt ?? 'now'].join('-'));
    expect(dumped(join(dir, 'read', `${name}.db`), plugin)).toEqual(replayed(entries, plugin, host.registry));
  }
}

const sizes = fc.record({
  batch: fc.integer({ min: 1, max: 15 }),
  page: fc.integer({ min: 1, max: 9 }),
  heaviest: fc.integer({ min: 1, max: 30 }),
  cached: fc.integer({ min: 1, max: 40 }),
});

it('the core lists and the tally hold the rows of a plain replay, kept up or rebuilt, now and in the past', async () => {
  const recorded = new Set<string>();
  const sequence = fc.array(step, { minLength: 4, maxLength: 22 });
  await fc.assert(
    fc.asyncProperty(sequence, sizes, fc.integer({ min: 0, max: 20 }), async (steps, sizes, back) => {
      let now = Date.parse('2026-06-01T10:00:00Z');
      const clock = () => {
        now += 3 * 3_600_000;
        return new Date(now);
      };
      const opened = await studioHost({ plugins: PLUGINS, sizes, clock });
      try {
        await opened.tell(...materials);
        for (const piece of LOTS)
          await opened.ask('piece.begin', { piece, count: 12, clay: 'fell-white' }, dayAfter(0));
        const yard = new Yard(opened);
        for (const it of steps) await yard.take(it);
        for (const { name } of await everything(opened.host)) recorded.add(name);
        await compare(opened, {});
        const asAt = dayAfter(back);
        await compare(opened, { asAt });
        await compare(opened, { asAt, knownAt: '2026-06-03' });
        await opened.host.rebuild();
        await compare(opened, {});
      } finally {
        await opened.close();
      }
    }),
    { numRuns: RUNS, seed: 20260502, endOnFailure: true },
  );
  // Much is refused; what the sequences are for was not.
  const wanted = [
    'glaze.applied',
    'firing.drawn',
    'lot.split',
    'fault.found',
    'piece.graded',
    'entry.struck',
  ];
  expect([...recorded]).toEqual(expect.arrayContaining(wanted));
}, 600_000);
