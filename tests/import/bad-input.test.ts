/** What comes in is not always a notebook: each gets a clear answer, and nothing is half recorded. */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { recallMapping } from '../../server/import/mappings.ts';
import { by, notebookStudio } from '../support/notebook.ts';

const HEADINGS = 'piece,count,made,form,glaze_fired,kiln,grade,note';
const GOOD = 'HY-1,1,2026-04-01,jug,2026-04-20,Big Round,first,';

describe('a file with bad rows', () => {
  test('records the good rows and lists every bad one by line, column, what was found and what was expected', async () => {
    const studio = await notebookStudio();
    const summary = await studio.bring([
      HEADINGS,
      GOOD,
      'HY-2,-3,2026-04-01,jug,,,,',
      'HY-3,1,31/02,jug,,,,',
      'HY-1,1,2026-04-01,bowl,,,,',
      'HY-4,2,2026-04-01,jug,2026-04-20,Big Round,"first 1, second 2",',
      'HY-5,1,2026-04-01,jug,,,,',
      'HY-6,1,2026-04-01,"cut',
    ]);
    expect(summary.bad).toEqual([
      { line: 3, column: 'count', found: '-3', expected: 'a whole number of pieces, from 1 to 100,000' },
      { line: 4, column: 'made', found: '31/02', expected: 'a date like 2026-05-01' },
      { line: 5, column: 'piece', found: 'HY-1', expected: 'a mark of its own: line 2 has the same' },
      { line: 6, column: 'grade', found: 'first 1, second 2', expected: 'grades that add up to the lot: 3 are graded and the lot has 2' },
      { line: 8, column: '', found: 'HY-6,1,2026-04-01,"cut', expected: expect.stringContaining('cut short') },
    ]);
    expect(summary.rows).toBe(7);
    expect((await studio.portions()).map(({ mark }) => mark)).toEqual(['HY-1', 'HY-5']);
  });

  test('names another schedule in one and the same firing', async () => {
    const studio = await notebookStudio();
    const { bad } = await studio.bring([
      'made,glaze_firing,glaze_fired,kiln,glaze_schedule',
      '2026-04-01,G12,2026-04-20,Big Round,Glaze 6 Plain',
      '2026-04-02,G12,2026-04-20,Big Round,Glaze 6 Soak',
      '2026-04-03,G12,2026-04-20,Big Round,',
    ]);
    expect(bad).toEqual([{ line: 3, column: 'glaze_schedule', found: 'Glaze 6 Soak', expected: 'Glaze 6 Plain, as line 2 says of G12' }]);
    expect((await studio.portions()).map(({ passages }) => passages[0]!.schedule)).toEqual(['glaze-6-plain', 'glaze-6-plain']);
  });

  test('names a firing without a day where there are several of its label', async () => {
    const studio = await notebookStudio();
    const { bad } = await studio.bring(['made,glaze_firing,glaze_fired', '2026-04-01,G12,2026-04-20', '2026-04-02,G12,2026-04-21', '2026-04-03,G12,']);
    expect(bad).toEqual([{ line: 4, column: 'glaze_fired', found: '', expected: 'the day of the firing: there are several called G12' }]);
  });

  test('names a row that the studio refuses, once, and records nothing of it', async () => {
    const studio = await notebookStudio();
    const begun = { ...by, id: 'hand', command: 'piece.begin', input: { piece: '0198-by-hand', mark: 'HY-1' }, happenedAt: '2026-03-01' };
    expect(await studio.host.record(begun)).toMatchObject({ outcome: 'recorded' });
    const summary = await studio.bring([HEADINGS, GOOD, GOOD.replace('HY-1', 'HY-2')]);
    expect(summary.bad).toMatchObject([{ line: 2, column: 'made', expected: expect.stringContaining('HY-1') }]);
    expect((await studio.portions()).map(({ mark, stage }) => [mark, stage])).toEqual([['HY-1', 'made'], ['HY-2', 'graded']]);
  });
});

describe('a file that cannot be read by its headings', () => {
  test.each([
    ['without made or piece', ['date,form', '2026-04-01,jug']],
    ['with a heading twice', ['made,form,Form', '2026-04-01,jug,bowl']],
  ])('%s records nothing', async (_, lines) => {
    const studio = await notebookStudio();
    const before = (await studio.entries()).length;
    const summary = await studio.bring(lines);
    expect(summary).toMatchObject({ rows: 0, recorded: 0, bad: [{ line: 1 }] });
    expect(await studio.entries()).toHaveLength(before);
  });

  test('lists headings that it does not know', async () => {
    const studio = await notebookStudio();
    const summary = await studio.bring(['made,__proto__,constructor,shelf life', '2026-04-01,a,b,c']);
    expect(summary).toMatchObject({ bad: [], unknown: ['__proto__', 'constructor', 'shelf life'] });
    expect(await studio.portions()).toHaveLength(1);
  });
});

describe('a spreadsheet’s export', () => {
  test('with a byte order mark, semicolons and decimal commas is read', async () => {
    const studio = await notebookStudio();
    const summary = await studio.bring(['\ufeffmade;form;glaze_fired;grade;price', '2026-04-01;"Krug; groß";2026-04-20;first;24,50']);
    expect(summary).toMatchObject({ bad: [], encoding: 'utf-8' });
    expect((await studio.portions())[0]).toMatchObject({ form: 'Krug; groß', price: { amount: 2450, currency: 'GBP' } });
  });

  test('in Latin-1 is read, and the summary says so', async () => {
    const studio = await notebookStudio();
    const summary = await studio.bring([], { source: Buffer.from('made,form\n2026-04-01,Krüge\n', 'latin1') });
    expect(summary).toMatchObject({ bad: [], encoding: 'windows-1252', notes: [expect.stringContaining('Latin-1')] });
    expect((await studio.portions())[0]!.form).toBe('Krüge');
  });

  test('with line breaks in its cells keeps them in notes and counts them in line numbers', async () => {
    const studio = await notebookStudio();
    const { bad } = await studio.bring(['made,form,note', '2026-04-01,"a\ntall\njug","one\n\ntwo"', '31/02,bowl,']);
    expect(bad).toMatchObject([{ line: 7, column: 'made' }]);
    const [jug] = await studio.portions();
    expect(jug!.form).toBe('a tall jug');
    const text = jug!.notes[0]!.note.text;
    expect((await studio.host.people.read([text])).get(text)).toBe('one\n\ntwo');
  });
});

describe('a file of 200 MB', () => {
  test('is refused with a sentence before anything is recorded', async () => {
    const studio = await notebookStudio();
    const before = (await studio.entries()).length;
    const path = join(studio.folder, 'large.csv');
    const row = `2026-04-01,jug,${'x'.repeat(1_000)}\n`;
    await writeFile(path, 'made,form,note\n');
    for (let part = 0; part < 20; part++) await writeFile(path, row.repeat(10_000), { flag: 'a' });
    await expect(studio.bring([], { source: path })).rejects.toThrow(/^This file is 204 MB; up to 100 MB can be read at once\. Split it/);
    expect(await studio.entries()).toHaveLength(before);
  });

  test('or one with more rows than can be put in order is refused too', async () => {
    const studio = await notebookStudio();
    async function* many(): AsyncGenerator<Uint8Array> {
      yield Buffer.from('made\n');
      const part = Buffer.from('2026-04-01\n'.repeat(50_000));
      for (let n = 0; n < 6; n++) yield part;
    }
    await expect(studio.bring([], { source: many() })).rejects.toThrow('more than 250,000 rows');
    expect(await studio.portions()).toEqual([]);
  });
});

describe('a dry run', () => {
  const LINES = [
    'count,made,form,clay,owner,glazes,glaze_firing,glaze_fired,kiln,glaze_schedule,faults,grade,price,left',
    '2,2026-04-01,jug,Fell White,student:Ola Nordmann,inside: Gannet Grey x2,G12,2026-04-20,Big Round,Glaze 6 Soak,runs@foot x1,"first 1, second 1",24,collected',
    '1,31/02,jug,,,,,,,,,,,',
  ];

  test('says row by row what would be recorded, and records nothing', async () => {
    const studio = await notebookStudio();
    const before = await studio.entries();
    const dry = await studio.bring(LINES, { dryRun: true });
    expect(dry.preview).toEqual([
      {
        line: 2,
        struck: 0,
        sentences: [
          'Begun on 2026-04-01: a lot of 2 with a mark given by the studio, jug in Fell White, student: Ola Nordmann.',
          'Priced: £24.00.',
          'Glazed (inside): Gannet Grey × 2.',
          'Glaze fired on 2026-04-20: G12 in Big Round, Glaze 6 Soak.',
          'Fault: runs (foot), on 1 of 2.',
          'Graded: 1 first, 1 second.',
          'Left on 2026-04-20: collected, 1 of 2 (day not known).',
          'Left on 2026-04-20: collected, 1 of 2 (day not known).',
        ],
      },
    ]);
    expect(dry.bad).toMatchObject([{ line: 3, column: 'made' }]);
    expect(dry.added).toMatchObject({ clays: ['Fell White'], people: ['Ola Nordmann'] });
    expect(await studio.entries()).toEqual(before);
    expect(await studio.host.people.find('Nordmann')).toEqual([]);
    const real = await studio.bring(LINES);
    expect(real.recorded).toBe(dry.recorded);
  });

  test('of a file that was imported already has nothing to say', async () => {
    const studio = await notebookStudio();
    await studio.bring(LINES);
    const dry = await studio.bring(LINES, { dryRun: true });
    expect(dry).toMatchObject({ recorded: 0, struck: 0, preview: [{ line: 2, sentences: [], struck: 0 }] });
  });

  test('foresees what the studio would refuse', async () => {
    const studio = await notebookStudio();
    await studio.host.record({ ...by, id: 'hand', command: 'piece.begin', input: { piece: '0198-by-hand', mark: 'HY-1' }, happenedAt: '2026-03-01' });
    expect((await studio.bring([HEADINGS, GOOD], { dryRun: true })).bad).toMatchObject([{ line: 2, expected: expect.stringContaining('HY-1') }]);
  });
});

describe('a mapping', () => {
  test('is remembered for the next file with the same headings, in whatever order', async () => {
    const studio = await notebookStudio();
    const mapping = JSON.parse('{"Datum":"made","Was":"form","__proto__":"clay"}');
    await studio.bring(['Datum,Was,__proto__', '2026-04-01,jug,Fell White'], { mapping });
    const again = await studio.bring(['__proto__;Was;Datum', 'Grit House;bowl;2026-04-02']);
    expect(again.bad).toEqual([]);
    expect((await studio.portions()).map(({ form, clay }) => [form, clay])).toEqual([['jug', 'fell-white'], ['bowl', 'grit-house']]);
    expect(Object.entries(await recallMapping(studio.folder, ['datum', 'WAS', '__proto__']))).toEqual([['Datum', 'made'], ['Was', 'form'], ['__proto__', 'clay']]);
  });

  test('that is damaged on disk is as good as none', async () => {
    const studio = await notebookStudio();
    await writeFile(join(studio.folder, 'mappings.json'), '{"half');
    expect((await studio.bring(['made', '2026-04-01'])).bad).toEqual([]);
  });

  test('of a dry run is not remembered', async () => {
    const studio = await notebookStudio();
    await studio.bring(['Datum', '2026-04-01'], { mapping: { Datum: 'made' }, dryRun: true });
    expect(await recallMapping(studio.folder, ['Datum'])).toEqual({});
  });
});

describe('what is in the studio already', () => {
  test('is met by name, not added again', async () => {
    const studio = await notebookStudio();
    const add = (id: string, command: string, input: object) => studio.host.record({ ...by, id, command, input, happenedAt: '2026-01-01' });
    await add('c', 'clay.add', { id: 'fw', name: 'Fell White stoneware' });
    await add('k', 'kiln.add', { id: 'big-round', name: 'Big Round' });
    await add('p', 'person.add', { person: 'p-1', name: 'Ola Nordmann' });
    await add('w', 'word.add', { kind: 'fault', name: 'Spit-out' });
    const summary = await studio.bring([
      'made,clay,owner,bisque_fired,bisque_kiln,faults',
      '2026-04-01,fell white  Stoneware,commission:ola nordmann,2026-04-10,BIG ROUND,spit-out',
    ]);
    expect(summary).toMatchObject({ bad: [], added: { clays: [], kilns: [], people: [] } });
    expect((await studio.portions())[0]).toMatchObject({ clay: 'fw', owner: { kind: 'commission', person: 'p-1' }, faults: [{ kind: 'spit-out' }] });
  });

  test('a firing of the same label, kiln and day is the one that the file means', async () => {
    const studio = await notebookStudio();
    const record = async (id: string, command: string, input: object, happenedAt: string) =>
      expect(await studio.host.record({ ...by, id, command, input, happenedAt })).toMatchObject({ outcome: 'recorded' });
    await record('k', 'kiln.add', { id: 'big-round', name: 'Big Round' }, '2026-01-01');
    await record('b', 'piece.begin', { piece: '0198-by-hand' }, '2026-04-01');
    await record('f', 'firing.pack', { firing: 'f-1', label: 'B7', kiln: 'big-round', role: 'bisque', places: [{ piece: '0198-by-hand' }] }, '2026-04-10');
    await record('l', 'firing.light', { firing: 'f-1' }, '2026-04-10');
    const lines = ['made,bisque_firing,bisque_fired,bisque_kiln', '2026-04-01,B7,2026-04-10,Big Round'];
    expect((await studio.bring(lines)).bad).toEqual([]);
    expect((await studio.firings()).map(({ label, state, places }) => [label, state, places.length])).toEqual([['B7', 'drawn', 2]]);
    expect((await studio.portions()).map(({ stage }) => stage)).toEqual(['bisque-fired', 'bisque-fired']);
    expect(await studio.bring(lines)).toMatchObject({ recorded: 0, bad: [] });
  });
});
