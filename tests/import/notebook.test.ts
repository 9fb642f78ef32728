/** A notebook comes in: given its rows, then these entries are in the log and the pieces stand so. */
import { describe, expect, test } from 'vitest';
import { by, notebookStudio } from '../support/notebook.ts';

const HEADINGS =
  'piece,count,made,form,clay,owner,bisque_schedule,bisque_firing,bisque_fired,bisque_kiln,glazes,glaze_schedule,glaze_firing,glaze_fired,kiln,faults,grade,repair,price,second_price,left,note';

const WHOLE = [
  HEADINGS,
  'HY-1,12,2026-04-01,beaker,Fell White stoneware,,Overnight Bisque 06,B7,2026-04-10,Big Round,outside: Marram Green > Cuttle White x2; inside: Gannet Grey,Glaze 6 Soak,G12,2026-04-20,Big Round,pinholes@inside; runs@foot x4,"first 9, second 2, waster 1",,24.00,12.00,sold 2026-05-01,for the fair',
  'HY-2,1,2026-04-02,lamp,Otterfold Buff stoneware,commission:Björk Æsdóttir,Overnight Bisque 06,B7,2026-04-10,Big Round,Nightjar Black,Glaze 6 Soak,G12,2026-04-20,Big Round,,second,grind; refire,£80,,collected,',
  ',3,2026-04-03,tile,Fell White stoneware,,,,,,,,,,,,,,,,,',
];

describe('a whole notebook', () => {
  test('is recorded in the order it happened', async () => {
    const studio = await notebookStudio();
    const summary = await studio.bring(WHOLE);
    expect(summary.bad).toEqual([]);
    expect(summary).toMatchObject({ rows: 3, pieces: 16, firings: 2, repeated: 0, struck: 0, unknown: [], encoding: 'utf-8' });
    expect(summary.added).toEqual({
      clays: ['Fell White stoneware', 'Otterfold Buff stoneware'],
      glazes: ['Marram Green', 'Cuttle White', 'Gannet Grey', 'Nightjar Black'],
      schedules: ['Overnight Bisque 06', 'Glaze 6 Soak'],
      kilns: ['Big Round'],
      people: ['Björk Æsdóttir'],
    });
    const entries = (await studio.entries()).slice(1);
    expect(summary.recorded).toBe(entries.length);
    const rows = entries.filter(({ name }) => !/added|written/.test(name));
    expect(rows.map(({ name, happenedAt }) => `${happenedAt} ${name}`)).toEqual([
      '2026-04-01 piece.begun',
      '2026-04-01 piece.priced',
      '2026-04-01 piece.noted',
      '2026-04-02 piece.begun',
      '2026-04-02 piece.priced',
      '2026-04-03 piece.begun',
      '2026-04-10 firing.packed',
      '2026-04-10 firing.packed',
      '2026-04-10 firing.lit',
      '2026-04-10 firing.ended',
      '2026-04-10 firing.drawn',
      '2026-04-20 glaze.applied',
      '2026-04-20 glaze.applied',
      '2026-04-20 glaze.applied',
      '2026-04-20 firing.packed',
      '2026-04-20 firing.packed',
      '2026-04-20 firing.lit',
      '2026-04-20 firing.ended',
      '2026-04-20 firing.drawn',
      '2026-04-20 fault.found',
      '2026-04-20 fault.found',
      '2026-04-20 repair.done',
      '2026-04-20 repair.done',
      '2026-04-20 lot.split',
      '2026-04-20 piece.graded',
      '2026-04-20 piece.graded',
      '2026-04-20 piece.graded',
      '2026-04-20 piece.graded',
      '2026-04-20 piece.left',
      '2026-05-01 piece.left',
      '2026-05-01 piece.left',
    ]);
  });

  test('leaves each piece as the notebook has it', async () => {
    const studio = await notebookStudio();
    await studio.bring(WHOLE);
    const portions = await studio.portions();
    const grade = (portion: (typeof portions)[number]) => portion.gradings.at(-1)?.grade;
    const beakers = portions.filter(({ form }) => form === 'beaker');
    expect(beakers.map((portion) => [grade(portion), portion.count, portion.stage, portion.left?.how, portion.left?.price?.amount]).sort()).toEqual([
      ['first', 9, 'left', 'sold', 2400],
      ['second', 2, 'left', 'sold', 1200],
      ['waster', 1, 'graded', undefined, undefined],
    ]);
    /* Wasters first, then seconds, the rest on firsts. */
    const faults = (of: string) => beakers.find((portion) => grade(portion) === of)!.faults.map(({ kind, zone, count }) => [kind, zone, count]);
    expect(faults('waster')).toEqual([['pinholes', 'inside', 1], ['runs', 'foot', 1]]);
    expect(faults('second')).toEqual([['pinholes', 'inside', 2], ['runs', 'foot', 2]]);
    expect(faults('first')).toEqual([['runs', 'foot', 1]]);
    expect(beakers[0]!.passages.map(({ label, kiln, role, schedule, state }) => [label, kiln, role, schedule, state])).toEqual([
      ['B7', 'big-round', 'bisque', 'overnight-bisque-06', 'drawn'],
      ['G12', 'big-round', 'glaze', 'glaze-6-soak', 'drawn'],
    ]);
    expect(beakers[0]!.passages[1]!.glazings.map(({ zone, layers }) => [zone, layers])).toEqual([
      ['outside', [{ glaze: 'marram-green', coats: 1 }, { glaze: 'cuttle-white', coats: 2 }]],
      ['inside', [{ glaze: 'gannet-grey', coats: 1 }]],
    ]);
    const lamp = portions.find(({ form }) => form === 'lamp')!;
    expect(lamp).toMatchObject({ mark: 'HY-2', count: 1, stage: 'left', clay: 'otterfold-buff-stoneware', left: { how: 'collected' } });
    expect(lamp.repairs.map(({ method, state, after }) => [method, state, after])).toEqual([['grind', 'done', 'second'], ['refire', 'done', 'second']]);
    const tiles = portions.find(({ form }) => form === 'tile')!;
    expect(tiles).toMatchObject({ count: 3, stage: 'made', owner: { kind: 'own' } });
    expect(tiles.mark).toMatch(/^[ACDEFHJKMNPQRTVWXY34679]{5}$/);
  });

  test('puts no name and no note into the log, not even into an id', async () => {
    const studio = await notebookStudio();
    await studio.bring(WHOLE);
    const log = JSON.stringify(await studio.entries());
    for (const said of ['Björk', 'Æsdóttir', 'for the fair']) expect(log).not.toContain(said);
    const found = await studio.host.people.find('Æsdóttir');
    expect(found).toHaveLength(1);
    expect(found[0]!.person).toMatch(/^[0-9a-f-]{36}$/);
  });

  test('is one firing for the same label, kiln and day, whatever the rows', async () => {
    const studio = await notebookStudio();
    await studio.bring([
      'made,bisque_firing,bisque_fired,bisque_kiln',
      '2026-04-01,B7,2026-04-10,Big Round',
      '2026-04-02,B7,2026-04-10,big round',
      '2026-04-03,B7,2026-04-10,Little Square',
      '2026-04-04,B7,2026-04-11,Big Round',
      '2026-04-05,,2026-04-10,Big Round',
      '2026-04-06,,2026-04-10,Big Round',
    ]);
    const firings = await studio.firings();
    expect(firings.map(({ label, places, state }) => [label, places.length, state]).sort()).toEqual([
      ['B7', 1, 'drawn'],
      ['B7', 1, 'drawn'],
      ['B7', 2, 'drawn'],
      ['Big Round bisque 2026-04-10', 2, 'drawn'],
    ]);
  });

  test('takes the day and the kiln of a firing from another row with its label', async () => {
    const studio = await notebookStudio();
    const { bad } = await studio.bring([
      'made,glaze_firing,glaze_fired,kiln',
      '2026-04-01,G12,2026-04-20,Big Round',
      '2026-04-02,G12,,',
      '2026-04-01,G13,,',
      '2026-04-03,G13,,',
    ]);
    expect(bad).toEqual([]);
    const firings = await studio.firings();
    expect(firings.map(({ label, kiln, endedAt, places }) => [label, kiln, endedAt, places.length]).sort()).toEqual([
      ['G12', 'big-round', '2026-04-20', 2],
      ['G13', 'kiln-not-noted', '2026-04-03', 2],
    ]);
  });

  test('may have nothing but marks: the pieces are begun today', async () => {
    const studio = await notebookStudio();
    const lines = ['piece,grade', 'HY-1,', 'HY-2,'];
    expect(await studio.bring(lines)).toMatchObject({ bad: [], recorded: 2 });
    expect((await studio.portions()).map(({ mark, begunAt }) => [mark, begunAt.slice(0, 10)])).toEqual([['HY-1', '2026-11-25'], ['HY-2', '2026-11-25']]);
    expect(await studio.bring(lines)).toMatchObject({ bad: [], recorded: 0, repeated: 2 });
  });
});

describe('the same file again', () => {
  test('records nothing', async () => {
    const studio = await notebookStudio();
    await studio.bring(WHOLE);
    const before = await studio.entries();
    const again = await studio.bring(WHOLE);
    expect(again).toMatchObject({ recorded: 0, struck: 0, bad: [], added: { clays: [], glazes: [], schedules: [], kilns: [], people: [] } });
    expect(again.repeated).toBeGreaterThan(15);
    expect(await studio.entries()).toEqual(before);
  });

  test('records nothing either with its columns in another order, other names for them, and rows put between', async () => {
    const studio = await notebookStudio();
    await studio.bring(['made,form,clay', '2026-04-01,jug,Fell White', '2026-04-01,jug,Fell White', '2026-04-02,bowl,Fell White']);
    const summary = await studio.bring(
      ['Was;made;clay', 'jug;2026-04-01;fell  white', 'plate;2026-04-01;Fell White', 'jug;2026-04-01;Fell White', 'bowl;2026-04-02;Fell White'],
      { mapping: { Was: 'form' } },
    );
    expect(summary).toMatchObject({ recorded: 1, repeated: 3 });
  });

  test('does not bring back what was struck out by hand', async () => {
    const studio = await notebookStudio();
    await studio.bring(WHOLE);
    const note = (await studio.entries()).find(({ name }) => name === 'piece.noted')!;
    await studio.host.record({ ...by, id: 'undo', command: 'entry.strike', input: { seqs: [note.seq] } });
    expect(await studio.bring(WHOLE)).toMatchObject({ recorded: 0, bad: [] });
  });

  test('does not bring back an erased note', async () => {
    const studio = await notebookStudio();
    await studio.bring(WHOLE);
    const note = (await studio.entries()).find(({ name }) => name === 'piece.noted')!;
    await studio.host.people.erase('nobody', note.streams);
    expect(await studio.bring(WHOLE)).toMatchObject({ recorded: 0, bad: [] });
  });

  test('after an import that was cut off ends as one that was not', async () => {
    const whole = await notebookStudio();
    await whole.bring(WHOLE);
    const cut = await notebookStudio();
    let left = 3;
    const failing = {
      ...cut.host,
      recordAll: async (orders: Parameters<typeof cut.host.recordAll>[0]) => {
        const outcomes = await cut.host.recordAll(orders.slice(0, Math.ceil(orders.length / 2)));
        if (--left < 2) throw new Error('cut off');
        return [...outcomes, ...(await cut.host.recordAll(orders.slice(Math.ceil(orders.length / 2))))];
      },
    };
    await expect(cut.bring(WHOLE, { host: failing })).rejects.toThrow('cut off');
    expect((await cut.entries()).length).toBeLessThan((await whole.entries()).length);
    expect((await cut.bring(WHOLE)).bad).toEqual([]);
    const names = async (studio: typeof whole) => (await studio.entries()).map(({ name }) => name).sort();
    expect(await names(cut)).toEqual(await names(whole));
    expect(await cut.bring(WHOLE)).toMatchObject({ recorded: 0 });
  });
});
