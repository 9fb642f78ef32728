/** A notebook that was amended comes in again: what changed is struck out and recorded anew. */
import { describe, expect, test } from 'vitest';
import type { NotebookStudio } from '../support/notebook.ts';
import { by, notebookStudio } from '../support/notebook.ts';

const HEADINGS =
  'piece,count,made,form,clay,owner,bisque_firing,bisque_fired,bisque_kiln,glazes,glaze_schedule,glaze_firing,glaze_fired,kiln,faults,grade,price,second_price,left,note';

interface Said {
  [column: string]: string;
}
const BASE: Said = {
  piece: 'HY-1', count: '12', made: '2026-04-01', form: 'beaker', clay: 'Fell White', bisque_firing: 'B7', bisque_fired: '2026-04-10', bisque_kiln: 'Big Round',
  glazes: 'inside: Gannet Grey', glaze_schedule: 'Glaze 6 Soak', glaze_firing: 'G12', glaze_fired: '2026-04-20', kiln: 'Big Round',
  faults: 'pinholes@inside', grade: '"first 9, second 2, waster 1"', price: '24', second_price: '12', left: 'sold 2026-05-01', note: 'for the fair',
};
const OTHER: Said = { ...BASE, piece: 'HY-2', count: '1', grade: 'first', faults: '', note: '' };

const lines = (...rows: Said[]): string[] => [HEADINGS, ...rows.map((row) => HEADINGS.split(',').map((column) => row[column] ?? '').join(','))];

/** The pieces without what tells when and by which command they were recorded. */
async function standing(studio: NotebookStudio): Promise<unknown[]> {
  const portions = await studio.portions();
  const plain = portions.map((portion) =>
    JSON.parse(
      JSON.stringify(portion, (key, value) => (['seq', 'changedSeq', 'changedAt', 'packedAt', 'litAt', 'piece', 'from', 'note', 'mark'].includes(key) ? undefined : value)),
    ),
  );
  return plain.sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
}

const struckNames = async (studio: NotebookStudio): Promise<string[]> => {
  const entries = await studio.entries();
  const strikes = entries.filter(({ name }) => name === 'entry.struck').map(({ data }) => (data as { seq: number }).seq);
  return strikes.map((seq) => entries[seq - 1]!.name).sort();
};

describe('an amended row', () => {
  test.each<[string, Said, Said]>([
    ['a grade filled in', { ...BASE, grade: '', faults: '', left: '' }, { ...BASE, left: '' }],
    ['a glaze firing filled in', { ...BASE, glaze_fired: '', glaze_firing: '', glaze_schedule: '', kiln: '', grade: '', faults: '', left: '' }, BASE],
    ['other grades', BASE, { ...BASE, grade: '"first 10, second 1, waster 1"' }],
    ['one grade for all instead of several', BASE, { ...BASE, grade: 'second' }],
    ['another glaze', BASE, { ...BASE, glazes: 'inside: Gannet Grey; outside: Marram Green x2' }],
    ['no glaze', BASE, { ...BASE, glazes: '' }],
    ['another fault', BASE, { ...BASE, faults: 'runs@foot x2' }],
    ['a fault more', BASE, { ...BASE, faults: 'pinholes@inside; runs@foot x2' }],
    ['another day of the glaze firing', BASE, { ...BASE, glaze_fired: '2026-04-21' }],
    ['another label of the glaze firing', BASE, { ...BASE, glaze_firing: 'G13' }],
    ['another bisque firing', BASE, { ...BASE, bisque_firing: 'B8', bisque_fired: '2026-04-12' }],
    ['no bisque firing', BASE, { ...BASE, bisque_firing: '', bisque_fired: '', bisque_kiln: '' }],
    ['another count', BASE, { ...BASE, count: '11', grade: '"first 9, second 2"' }],
    ['another form, clay and day', BASE, { ...BASE, form: 'mug', clay: 'Grit House', made: '2026-04-02' }],
    ['another owner', BASE, { ...BASE, owner: 'commission:Ola Nordmann' }],
    ['another price', BASE, { ...BASE, price: '28' }],
    ['another day of leaving', BASE, { ...BASE, left: 'given 2026-05-03' }],
    ['not left after all', BASE, { ...BASE, left: '' }],
    ['another note', BASE, { ...BASE, note: 'not for the fair' }],
    ['nothing but its mark and day', BASE, { piece: 'HY-1', made: '2026-04-01' }],
  ])('with %s stands as if it had come in so at once', async (_, before, after) => {
    const amended = await notebookStudio();
    expect((await amended.bring(lines(before, OTHER))).bad).toEqual([]);
    const summary = await amended.bring(lines(after, OTHER));
    expect(summary.bad).toEqual([]);
    expect(summary.recorded).toBeGreaterThan(0);
    const atOnce = await notebookStudio();
    await atOnce.bring(lines(after, OTHER));
    if (after.owner === undefined) expect(await standing(amended)).toEqual(await standing(atOnce));
    else expect((await amended.portions()).filter(({ mark }) => mark === 'HY-1').map(({ owner }) => owner.kind)).toContain('commission');
    expect(await amended.bring(lines(after, OTHER))).toMatchObject({ recorded: 0, bad: [] });
  });

  test('strikes out no more than what changed, with the reason', async () => {
    const studio = await notebookStudio();
    await studio.bring(lines({ ...BASE, left: '' }, OTHER));
    expect(await studio.bring(lines({ ...BASE, left: '', price: '28', note: 'kept' }, OTHER))).toMatchObject({ struck: 2, recorded: 4 });
    expect(await struckNames(studio)).toEqual(['piece.noted', 'piece.priced']);
    const strike = (await studio.entries()).find(({ name }) => name === 'entry.struck')!;
    const { why } = strike.data as { why: { text: string } };
    expect((await studio.host.people.read([why.text])).get(why.text)).toBe('amended notebook');
  });

  test('leaves the rest of its firing alone', async () => {
    const studio = await notebookStudio();
    await studio.bring(lines(BASE, OTHER));
    await studio.bring(lines({ ...BASE, glaze_firing: 'G13' }, OTHER));
    const firings = await studio.firings();
    expect(firings.map(({ label, state, places }) => [label, state, places.length]).sort()).toEqual([
      ['B7', 'drawn', 2],
      ['G12', 'drawn', 1],
      ['G13', 'drawn', 1],
    ]);
  });

  test('added to a firing that was drawn is noted as having gone through it', async () => {
    const studio = await notebookStudio();
    await studio.bring(lines(OTHER));
    await studio.bring(lines(OTHER, BASE));
    const packed = (await studio.entries()).filter(({ name }) => name === 'firing.packed');
    expect(packed.map(({ data }) => (data as { afterwards?: string }).afterwards)).toEqual([undefined, undefined, 'drawn', 'drawn']);
    const atOnce = await notebookStudio();
    await atOnce.bring(lines(OTHER, BASE));
    expect(await standing(studio)).toEqual(await standing(atOnce));
  });

  test('changed back says again what it said at first', async () => {
    const studio = await notebookStudio();
    await studio.bring(lines(BASE));
    const before = await standing(studio);
    await studio.bring(lines({ ...BASE, grade: 'first', glazes: 'Marram Green' }));
    expect(await standing(studio)).not.toEqual(before);
    await studio.bring(lines(BASE));
    expect(await standing(studio)).toEqual(before);
    expect(await studio.bring(lines(BASE))).toMatchObject({ recorded: 0 });
  });

  test('on which something noted by hand rests is left as it is and named; other rows are amended', async () => {
    const studio = await notebookStudio();
    await studio.bring(lines({ ...BASE, left: '' }, OTHER));
    const waster = (await studio.portions()).find(({ gradings }) => gradings.at(-1)?.grade === 'waster')!;
    const byHand = { ...by, id: 'by-hand', command: 'piece.leave', input: { piece: waster.piece, how: 'broken-up' }, happenedAt: '2026-05-02' };
    expect(await studio.host.record(byHand)).toMatchObject({ outcome: 'recorded' });
    const before = (await studio.portions()).filter(({ clay, gradings }) => clay !== undefined && gradings.length > 0).length;
    const summary = await studio.bring(lines({ ...BASE, left: '', grade: 'first' }, { ...OTHER, price: '30' }));
    expect(summary.bad).toMatchObject([{ line: 2, found: 'a change to what an earlier import recorded', expected: expect.stringContaining('by hand') }]);
    expect((await studio.portions()).filter(({ clay, gradings }) => clay !== undefined && gradings.length > 0)).toHaveLength(before);
    expect((await studio.portions()).find(({ mark }) => mark === 'HY-2')!.price!.amount).toBe(3000);
  });

  test('keeps what was noted by hand beside it', async () => {
    const studio = await notebookStudio();
    await studio.bring(lines({ ...OTHER, left: '' }));
    const piece = (await studio.portions())[0]!.piece;
    await studio.host.record({ ...by, id: 'by-hand', command: 'fault.find', input: { piece, kind: 'crazing' }, happenedAt: '2026-06-01' });
    expect((await studio.bring(lines({ ...OTHER, left: '', glazes: 'Marram Green' }))).bad).toEqual([]);
    expect((await studio.portions())[0]!.faults.map(({ kind }) => kind)).toEqual(['crazing']);
  });
});
