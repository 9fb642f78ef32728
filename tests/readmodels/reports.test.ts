import { eq, sql } from 'drizzle-orm';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type Answered, type Ask, definePlugin, type Plugin, report } from '../../server/contract/plugin.ts';
import { ReportRefused } from '../../server/readmodels/params.ts';
import { ReportFailed, UnknownReport } from '../../server/readmodels/reports.ts';
import { bowlKind, bowlPlugin, bowls } from '../support/bowls.ts';
import { Bench, somePeople } from '../support/readmodels.ts';

const HASH = 'a'.repeat(64);
const answer = (rows: Record<string, unknown>[], more?: Record<string, unknown>): Answered => ({
  sentence: 'So it is.',
  rows,
  notes: [],
  figures: [],
  ...(more ? { more } : {}),
});

/** The bowls with one more report that does what the test says. */
const asking = (run: (ask: Ask) => Promise<Answered>): Plugin =>
  definePlugin({
    ...bowlPlugin,
    reports: { ...bowlPlugin.reports, mine: report({ title: 'Mine', input: z.strictObject({}), run }) },
  });

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
  bench.made('soup', 4, '2026-04-01');
  bench.made('tea', 3, '2026-04-20');
});
afterEach(() => bench.end());

describe('a report', () => {
  it('answers with its name, rows and a sentence', async () => {
    const models = await bench.open(bowlPlugin);
    expect(await models.report('bowls', 'all', { least: '4' })).toEqual({
      report: 'all',
      from: null,
      to: null,
      sentence: '4 bowls.',
      rows: [{ bowl: 'soup', count: 4, glaze: null }],
      notes: [],
      figures: [],
    });
  });

  it('says which parameter it does not know, and which it does', async () => {
    const models = await bench.open(bowlPlugin);
    const asked = models.report('bowls', 'all', { colour: 'green' });
    await expect(asked).rejects.toThrow(ReportRefused);
    await expect(asked).rejects.toMatchObject({
      refusal: {
        code: 'unknown-parameter',
        field: 'colour',
        sentence: '“All bowls” does not know colour. It knows: glaze, least, as-at, known-at.',
      },
    });
  });

  it.each([
    ['least', '-1', 'least'],
    ['least', 'many', 'least'],
    ['as-at', '31/02/2026', 'a day is written like 2026-05-01'],
    ['known-at', '2026-02-31', 'a day is written like 2026-05-01'],
  ])('says what is wrong with %s=%s', async (field, value, what) => {
    const models = await bench.open(bowlPlugin);
    const asked = models.report('bowls', 'all', { [field]: value });
    await expect(asked).rejects.toMatchObject({ refusal: { code: 'bad-parameter', field } });
    await expect(asked).rejects.toThrow(what);
    await expect(asked).rejects.toThrow(value);
  });

  it('says which plugins and reports there are when there is none of that name', async () => {
    const models = await bench.open(bowlPlugin);
    await expect(models.report('plates', 'all', {})).rejects.toThrow(
      'There is no plugin “plates”. There are: bowls.',
    );
    await expect(models.report('bowls', 'most', {})).rejects.toThrow(
      '“bowls” has no report “most”. It has: all.',
    );
    await expect(models.report('bowls', 'constructor', {})).rejects.toThrow(UnknownReport);
  });

  it('that throws names its plugin, and the next one answers', async () => {
    const models = await bench.open(
      asking(async () => {
        throw new Error('the kiln is cold');
      }),
    );
    const asked = models.report('bowls', 'mine', {});
    await expect(asked).rejects.toThrow(ReportFailed);
    await expect(asked).rejects.toThrow('Report “mine” of plugin “bowls” failed: the kiln is cold');
    expect((await models.report('bowls', 'all', {})).sentence).toBe('7 bowls.');
  });

  it('that answers with something no page could draw is refused in tests and development', async () => {
    const models = await bench.open(
      asking(async () => ({ ...answer([]), figures: [{ figure: 'pie' }] }) as never),
    );
    await expect(models.report('bowls', 'mine', {})).rejects.toThrow(
      'its answer is not as it must be (figures.0.figure',
    );
  });

  it('asks by drizzle as well as by SQL', async () => {
    const models = await bench.open(
      asking(async ({ db }) => {
        const tea = await db.select().from(bowls).where(eq(bowls.bowl, 'tea')).get();
        const none = await db.select().from(bowls).where(eq(bowls.bowl, 'jug')).get();
        const all = await db
          .select({ bowl: bowls.bowl, twice: sql<number>`${bowls.count} * 2` })
          .from(bowls)
          .orderBy(bowls.bowl);
        return answer([{ tea: tea?.count, none: none === undefined }, ...all]);
      }),
    );
    expect((await models.report('bowls', 'mine', {})).rows).toEqual([
      { tea: 3, none: true },
      { bowl: 'soup', twice: 8 },
      { bowl: 'tea', twice: 6 },
    ]);
  });

  it('sees one moment only, whatever is recorded while it runs', async () => {
    const count = 'SELECT sum(count) AS pieces FROM bowls';
    const models = await bench.open(
      asking(async (ask) => {
        const before = await ask.query(count);
        bench.made('tea', 10);
        await models.waitFor();
        const state = await ask.state(bowlKind, 'tea');
        return answer([
          ...before,
          ...(await ask.query(count)),
          { state: state.count, story: (await ask.story('bowl:tea')).length },
        ]);
      }),
    );
    expect((await models.report('bowls', 'mine', {})).rows).toEqual([
      { pieces: 7 },
      { pieces: 7 },
      { state: 3, story: 1 },
    ]);
    expect((await models.report('bowls', 'all', {})).sentence).toBe('17 bowls.');
  });

  it('knows today in the studio, or the day that is asked about', async () => {
    const models = await bench.open(asking(async ({ today }) => answer([{ today }])));
    expect((await models.report('bowls', 'mine', {})).rows).toEqual([{ today: '2026-05-01' }]);
    expect((await models.report('bowls', 'mine', { 'as-at': '2026-04-10' })).rows).toEqual([
      { today: '2026-04-10' },
    ]);
  });

  it('shows texts and names in place of what stands for them, and says which are gone', async () => {
    bench.people = somePeople({ 'note-1': 'for the altar' }, { 'person-1': 'Ansa Whitlow' });
    const text = (id: string) => ({ text: id, hash: HASH });
    const models = await bench.open(
      asking(async () =>
        answer(
          [
            { note: text('note-1'), whose: { person: 'person-1' } },
            { note: text('note-2'), whose: { person: 'person-2' } },
          ],
          {
            story: [{ data: { note: text('note-1'), kept: { person: 'person-1', kind: 'student' } } }],
          },
        ),
      ),
    );
    const { rows, more } = await models.report('bowls', 'mine', {});
    expect(rows).toEqual([
      { note: 'for the altar', whose: 'Ansa Whitlow' },
      { note: '(erased)', whose: '(forgotten)' },
    ]);
    expect(more).toEqual({
      story: [{ data: { note: 'for the altar', kept: { person: 'person-1', kind: 'student' } } }],
    });
  });
});

describe('a report that tries to write', () => {
  it.each([
    'DELETE FROM bowls',
    'PRAGMA query_only = OFF',
    "ATTACH DATABASE 'other.db' AS other",
    '/* SELECT */ DROP TABLE bowls',
    'WITH gone AS (SELECT 1) DELETE FROM bowls',
    'SELECT 1; DELETE FROM bowls',
  ])('changes nothing with %s', async (statement) => {
    const models = await bench.open(asking(async (ask) => answer(await ask.query(statement))));
    await models
      .report('bowls', 'mine', {})
      .catch((error: unknown) => expect(error).toBeInstanceOf(ReportFailed));
    expect((await models.report('bowls', 'all', {})).sentence).toBe('7 bowls.');
    bench.made('tea', 1);
    expect((await models.report('bowls', 'all', {})).sentence).toBe('8 bowls.');
  });

  it('is stopped by the database itself, however its SQL begins', async () => {
    const models = await bench.open(
      asking(async (ask) => answer(await ask.query('WITH a AS (SELECT 1) DELETE FROM bowls RETURNING bowl'))),
    );
    await expect(models.report('bowls', 'mine', {})).rejects.toThrow(/readonly|read-only|database is locked/);
  });

  it('may bind a truth value, which reaches SQL as 1, but nothing that is not a value', async () => {
    const binding = (value: unknown) =>
      asking(async (ask) => answer(await ask.query('SELECT ? AS it', [value as never])));
    expect((await (await bench.open(binding(true))).report('bowls', 'mine', {})).rows).toEqual([{ it: 1 }]);
    const models = await bench.open(binding(Number.NaN));
    await expect(models.report('bowls', 'mine', {})).rejects.toThrow(
      'SQL parameters are text, numbers or null',
    );
  });
});
