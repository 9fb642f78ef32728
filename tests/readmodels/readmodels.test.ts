import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { definePlugin, type Plugin, projection } from '../../server/contract/plugin.ts';
import { type Bowl, bowlList, bowlPlugin } from '../support/bowls.ts';
import { Bench } from '../support/readmodels.ts';

/** The same list under another name, changed as the test says. */
const reader = (id: string, change: Partial<typeof bowlList>): Plugin =>
  definePlugin({
    ...bowlPlugin,
    id,
    needs: ['bowls'],
    prefixes: [],
    events: {},
    streams: [],
    projections: { list: projection<Bowl>({ ...bowlList, ...change } as never) },
  });

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
});
afterEach(() => bench.end());

const total = async (models: Awaited<ReturnType<Bench['open']>>, plugin = 'bowls', params = {}) =>
  (await models.report(plugin, 'all', params)).sentence;

describe('a read model', () => {
  it('shows in a report what was recorded just before', async () => {
    const models = await bench.open(bowlPlugin);
    for (let n = 1; n <= 5; n++) {
      bench.made('tea', 2);
      expect(await total(models)).toBe(`${2 * n} bowls.`);
    }
  });

  it('carries on from its file where it left off, without reading the log again', async () => {
    bench.made('tea', 3);
    await (await bench.open(bowlPlugin)).waitFor();
    await bench.close();
    bench.made('soup', 4);
    const asked: number[] = [];
    const read = bench.log.read.bind(bench.log);
    bench.log.read = async (after, limit) => {
      asked.push(after);
      return read(after, limit);
    };
    expect(await total(await bench.open(bowlPlugin))).toBe('7 bowls.');
    // One look at the entry of the checkpoint, to know the log by, and then only what came after it.
    expect(asked).toEqual([0, 1]);
  });

  it('is made again when its file was deleted', async () => {
    bench.made('tea', 3);
    await (await bench.open(bowlPlugin)).waitFor();
    await bench.close();
    rmSync(bench.path('bowls'));
    expect(await total(await bench.open(bowlPlugin))).toBe('3 bowls.');
    expect(existsSync(bench.path('bowls'))).toBe(true);
  });

  it('is made again when its file is something else, cut short or damaged', async () => {
    for (let n = 0; n < 200; n++) bench.made(`tea-${n}`, 1);
    await (await bench.open(bowlPlugin)).waitFor();
    await bench.close();
    const whole = readFileSync(bench.path('bowls'));
    for (const bytes of [
      Buffer.from('a shopping list\n'.repeat(500)),
      whole.subarray(0, 5000),
      whole.subarray(0, -4096),
      whole.subarray(0, 0),
    ]) {
      writeFileSync(bench.path('bowls'), bytes);
      expect(await total(await bench.open(bowlPlugin))).toBe('200 bowls.');
      await bench.close();
    }
  });

  it('starts afresh when a build was cut off before it was complete', async () => {
    bench.made('tea', 3);
    writeFileSync(`${bench.path('bowls')}.building`, 'half a file');
    expect(await total(await bench.open(bowlPlugin))).toBe('3 bowls.');
    expect(existsSync(`${bench.path('bowls')}.building`)).toBe(false);
  });

  it('is made again before it is served when its projection has another version', async () => {
    bench.made('tea', 3);
    await (await bench.open(bowlPlugin)).waitFor();
    const doubled = definePlugin({
      ...bowlPlugin,
      projections: {
        list: projection<Bowl>({
          ...bowlList,
          version: 2,
          rows: (state: Bowl, key: string) =>
            bowlList.rows({ ...state, count: state.count * 2 } as never, key),
        } as never),
      },
    });
    expect(await total(await bench.open(doubled))).toBe('6 bowls.');
  });

  it('is made again when the log is another one', async () => {
    bench.made('tea', 3);
    await (await bench.open(bowlPlugin)).waitFor();
    await bench.close();
    const other = new Bench();
    other.made('soup', 8);
    other.made('soup', 1);
    Object.assign(bench, { log: other.log });
    expect(await total(await bench.open(bowlPlugin))).toBe('9 bowls.');
    await other.end();
  });

  it('is made again on demand, telling how far it is', async () => {
    for (let n = 0; n < 30; n++) bench.made(`tea-${n}`, 1);
    const models = await bench.open(bowlPlugin);
    await models.waitFor();
    const told: [number, number][] = [];
    await models.rebuild('bowls', (done, of) => told.push([done, of]));
    expect(told.at(-1)).toEqual([30, 30]);
    expect(await total(models)).toBe('30 bowls.');
  });
});

describe('a plugin that fails', () => {
  const broken = reader('broken', {
    rows: (state, key) => {
      if ((state as Bowl).count > 5) throw new Error('more than five bowls');
      return bowlList.rows(state as never, key);
    },
  });

  it('delays only itself, and is named with its reason', async () => {
    bench.made('tea', 6);
    const models = await bench.open(bowlPlugin, broken);
    expect(await total(models)).toBe('6 bowls.');
    await expect(total(models, 'broken')).rejects.toThrow(/“broken”.*more than five bowls/);
    const [good, bad] = await models.standing();
    expect(good).toEqual({ plugin: 'bowls', checkpoint: 1 });
    expect(bad).toMatchObject({ plugin: 'broken', checkpoint: 0 });
    expect(bad!.failed).toContain('Plugin “broken” cannot keep its read model: projection list of bowl:tea');
    bench.made('soup', 1);
    expect(await total(models)).toBe('7 bowls.');
  });

  it('catches up by itself once what it stumbled over is struck out', async () => {
    bench.made('tea', 2, '2026-04-20');
    const models = await bench.open(bowlPlugin, broken);
    expect(await total(models, 'broken')).toBe('2 bowls.');
    bench.made('tea', 9, '2026-04-21');
    await expect(total(models, 'broken')).rejects.toThrow('more than five bowls');
    bench.struck(2, '2026-04-22');
    expect(await total(models, 'broken')).toBe('2 bowls.');
    expect(await models.standing()).toEqual([
      { plugin: 'bowls', checkpoint: 3 },
      { plugin: 'broken', checkpoint: 3 },
    ]);
  });

  it.each([
    ['a truth value', true, 'bowls.count is integer, not boolean'],
    ['no number at all', Number.NaN, 'bowls.count is integer, not number (NaN)'],
    ['half a bowl', 0.5, 'bowls.count is a whole number, not 0.5'],
    ['nothing where something must be', null, 'bowls.count must have a value'],
  ])('is told which column it gave %s', async (_, count, why) => {
    const odd = reader('odd', {
      rows: (state) => ({
        bowls: [{ bowl: (state as Bowl).bowl, count: count as number, glaze: null, lastDay: null }],
      }),
    });
    bench.made('tea', 1);
    const models = await bench.open(bowlPlugin, odd);
    await expect(total(models, 'odd')).rejects.toThrow(why);
    expect(await total(models)).toBe('1 bowls.');
  });

  it('is told that its table has no such column', async () => {
    const odd = reader('odd', {
      rows: () => ({ bowls: [{ bowl: 'a', count: 1, colour: 'green' } as never] }),
    });
    bench.made('tea', 1);
    await expect(total(await bench.open(bowlPlugin, odd), 'odd')).rejects.toThrow(
      'bowls has no column colour',
    );
  });
});

describe('events whose plugin was taken out', () => {
  it('are named with their number, and no longer once it is back', async () => {
    const glazes = definePlugin({
      ...bowlPlugin,
      id: 'orders',
      prefixes: ['order'],
      streams: [],
      events: { 'order.placed': { shape: bowlPlugin.events!['bowl.made']!.shape, rank: 0 } },
      projections: {},
      reports: {},
    });
    bench.made('tea', 1);
    for (let n = 0; n < 2; n++)
      bench.log.record('2026-04-21', '2026-04-21T10:00:00.000Z', [
        { name: 'order.placed', streams: ['bowl:tea'], data: { count: 1 } },
      ]);
    const both = await bench.open(bowlPlugin, glazes);
    await both.waitFor();
    expect((await both.standing()).map((it) => it.plugin)).toEqual(['bowls', 'orders']);
    const alone = await bench.open(bowlPlugin);
    await alone.waitFor();
    const last = (await alone.standing()).at(-1)!;
    expect(last).toMatchObject({ plugin: 'order', checkpoint: 3 });
    expect(last.failed).toContain('order.placed (2)');
  });
});

describe('the past', () => {
  it('as at a day holds what had happened by then, however late it was recorded', async () => {
    const models = await bench.open(bowlPlugin);
    bench.made('tea', 1, '2026-04-10');
    bench.made('tea', 2, '2026-04-20');
    expect(await total(models, 'bowls', { 'as-at': '2026-04-15' })).toBe('1 bowls.');
    bench.made('tea', 4, '2026-04-12', '2026-04-25');
    expect(await total(models, 'bowls', { 'as-at': '2026-04-15' })).toBe('5 bowls.');
    expect(await total(models)).toBe('7 bowls.');
  });

  it('as known at a day holds what had been recorded by its end in the studio', async () => {
    const models = await bench.open(bowlPlugin);
    const tea = (count: number, recordedAt: string) =>
      bench.log.record('2026-04-01', recordedAt, [
        { name: 'bowl.made', streams: ['bowl:tea'], data: { count } },
      ]);
    // Midnight of British Summer Time is 23:00 UTC.
    tea(1, '2026-04-14T22:59:59.999Z');
    tea(2, '2026-04-14T23:00:00.000Z');
    expect(await total(models, 'bowls', { 'known-at': '2026-04-14' })).toBe('1 bowls.');
    expect(await total(models, 'bowls', { 'known-at': '2026-04-15' })).toBe('3 bowls.');
  });

  it('leaves a struck entry out as at every day, but out of what was known only from the strike on', async () => {
    const models = await bench.open(bowlPlugin);
    bench.made('tea', 1, '2026-04-10');
    bench.made('tea', 2, '2026-04-11');
    bench.struck(2, '2026-04-20');
    expect(await total(models, 'bowls', { 'as-at': '2026-04-15' })).toBe('1 bowls.');
    expect(await total(models, 'bowls', { 'known-at': '2026-04-15' })).toBe('3 bowls.');
    expect(await total(models, 'bowls', { 'known-at': '2026-04-20' })).toBe('1 bowls.');
    expect(await total(models, 'bowls', { 'as-at': '2026-04-10', 'known-at': '2026-04-15' })).toBe(
      '1 bowls.',
    );
  });

  it('shows a stream and its state as they were', async () => {
    const models = await bench.open(bowlPlugin);
    bench.made('tea', 1, '2026-04-10');
    bench.made('tea', 2, '2026-04-11');
    bench.struck(2, '2026-04-20');
    expect((await models.story('bowl:tea')).map((it) => [it.entry.seq, it.struckBy])).toEqual([
      [1, undefined],
      [2, 3],
      [3, undefined],
    ]);
    expect((await models.story('bowl:tea', { knownAt: '2026-04-15' })).map((it) => it.struckBy)).toEqual([
      undefined,
      undefined,
    ]);
    expect(await models.state('bowl:tea', { knownAt: '2026-04-15' })).toMatchObject({ count: 3 });
    expect(await models.state('bowl:tea')).toMatchObject({ count: 1 });
    expect(await models.state('bowl:none')).toMatchObject({ bowl: 'none', count: 0 });
  });
});
