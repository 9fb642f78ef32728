import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type Ask, definePlugin, type Plugin, report } from '../../server/contract/plugin.ts';
import { bowlPlugin } from '../support/bowls.ts';
import { Bench } from '../support/readmodels.ts';

let bench: Bench;
let worked = 0;

/** The bowls with a report that is heavy to work out, and says how often that was done. */
const heavy = (
  tables?: readonly string[],
  make = async (ask: Ask) => (await ask.query('SELECT * FROM bowls')).length,
): Plugin =>
  definePlugin({
    ...bowlPlugin,
    reports: {
      ...bowlPlugin.reports,
      heavy: report({
        title: 'Heavy',
        input: z.strictObject({ key: z.string().default('') }),
        run: async (ask, { key }) => ({
          sentence: `${await ask.kept(
            key,
            () => {
              worked += 1;
              return make(ask);
            },
            tables,
          )} bowls.`,
          rows: [{ position: ask.position, past: ask.past }],
          notes: [],
          figures: [],
        }),
      }),
    },
  });

beforeEach(() => {
  worked = 0;
  bench = new Bench();
  bench.made('soup', 4, '2026-04-01');
});
afterEach(() => bench.end());

describe('what a report has worked out', () => {
  it('is worked out once while nothing changes, also for those who ask at the same time', async () => {
    const models = await bench.open(heavy());
    const asked = await Promise.all([
      models.report('bowls', 'heavy', {}),
      models.report('bowls', 'heavy', {}),
    ]);
    expect([...asked, await models.report('bowls', 'heavy', {})].map((it) => it.sentence)).toEqual(
      Array(3).fill('1 bowls.'),
    );
    expect(worked).toBe(1);
  });

  it('is worked out anew once a table of the plugin has changed, or another thing is asked', async () => {
    const models = await bench.open(heavy());
    await models.report('bowls', 'heavy', {});
    bench.made('tea', 3, '2026-04-20');
    expect(await models.report('bowls', 'heavy', {})).toMatchObject({
      sentence: '2 bowls.',
      rows: [{ position: bench.log.entries.length, past: '' }],
    });
    await models.report('bowls', 'heavy', { key: 'other' });
    expect(worked).toBe(3);
  });

  it('stands while only tables change that it does not rest on', async () => {
    const models = await bench.open(heavy([]));
    await models.report('bowls', 'heavy', {});
    bench.made('tea', 3, '2026-04-20');
    await models.report('bowls', 'heavy', {});
    expect(worked).toBe(1);
  });

  it('of one past is not told of another', async () => {
    bench.made('tea', 3, '2026-04-20');
    const models = await bench.open(heavy());
    const sentence = async (params: Record<string, string>) =>
      (await models.report('bowls', 'heavy', params)).sentence;
    expect(await sentence({})).toBe('2 bowls.');
    expect(await sentence({ 'as-at': '2026-04-10' })).toBe('1 bowls.');
    expect(await sentence({ 'known-at': '2026-04-10' })).toBe('1 bowls.');
    expect(worked).toBe(3);
    expect(await sentence({ 'as-at': '2026-04-10' })).toBe('1 bowls.');
    expect(worked).toBe(3);
  });

  it('is not kept where it failed', async () => {
    let fails = true;
    const models = await bench.open(
      heavy(undefined, async () => {
        if (fails) throw new Error('out of clay');
        return 7;
      }),
    );
    await expect(models.report('bowls', 'heavy', {})).rejects.toThrow('out of clay');
    fails = false;
    expect((await models.report('bowls', 'heavy', {})).sentence).toBe('7 bowls.');
  });
});
