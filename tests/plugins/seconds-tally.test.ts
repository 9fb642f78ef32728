import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Answer } from '../../server/contract/figures.ts';
import { done, type Happening } from '../support/given.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { begin, drawn, fired, glaze, JUG, materials, pounds, TILES } from '../support/yard.ts';

let studio: StudioHost;
const tally = (report: string, params: Record<string, string> = {}) =>
  studio.host.report('seconds-tally', report, params);
const row = (answer: Answer, key: string) => answer.rows.find((r) => r.key === key);

/** Twelve tiles at £10, £6 as a second: nine firsts, two seconds, one waster. */
const tiles: readonly Happening[] = [
  ...materials,
  done('2026-02-01', 'piece.begin', {
    piece: TILES,
    count: 12,
    form: 'tile',
    clay: 'fell-white',
    price: pounds(1000),
    secondPrice: pounds(600),
  }),
  ...drawn('B1', 'bisque', [TILES], '2026-02-10'),
  glaze(TILES, '2026-02-12'),
  done('2026-02-12', 'glaze.apply', {
    piece: TILES,
    zone: 'outside',
    layers: [{ glaze: 'cuttle-white', coats: 1 }],
  }),
  ...fired('G1', 'glaze', [TILES], '2026-02-14'),
  done('2026-02-16', 'fault.find', { piece: TILES, kind: 'pinholes', zone: 'inside', count: 3 }),
  done('2026-02-16', 'piece.grade', { piece: TILES, first: 9, second: 2, waster: 1 }),
  done('2026-02-16', 'firing.draw', { firing: 'G1' }),
];

describe('the tally of twelve tiles', () => {
  beforeAll(async () => {
    studio = await studioHost();
    await studio.tell(...tiles);
  });
  afterAll(() => studio.close());

  test('counts per piece, under every glaze they had', async () => {
    const answer = await tally('by-glaze');
    for (const key of ['Marram Green', 'Cuttle White'])
      expect(row(answer, key)).toMatchObject({ pieces: 12, firsts: 9, seconds: 2, wasters: 1, rate: 0.25 });
    expect(answer.sentence).toMatch(/^2 seconds and 1 waster of 12 graded pieces \(25 %\)/);
  });

  test('reckons what was lost: the price less the second price, and the whole of a waster', async () => {
    expect(row(await tally('by-month'), '2026-02')).toMatchObject({
      lost: 2 * (1000 - 600) + 1000,
      currency: 'GBP',
    });
  });

  test('lays the fault on the spoiled pieces', async () => {
    expect(row(await tally('by-fault'), 'pinholes')).toMatchObject({
      pieces: 3,
      firsts: 0,
      seconds: 2,
      wasters: 1,
    });
  });

  test('knows the clay, the kiln, and the kiln of the bisque', async () => {
    expect(row(await tally('by-clay'), 'Fell White')).toMatchObject({ pieces: 12 });
    expect(row(await tally('by-kiln'), 'Big Round')).toMatchObject({ pieces: 12 });
    expect(row(await tally('by-kiln', { role: 'bisque' }), 'Big Round')).toMatchObject({ pieces: 12 });
  });

  test('says when graded pieces stand in no row', async () => {
    const answer = await tally('by-schedule');
    expect(answer.rows).toEqual([]);
    expect(answer.notes.join(' ')).toMatch(/12 graded pieces have no schedule noted, and are left out/);
  });

  test('every number leads to the pieces behind it', async () => {
    const answer = await tally('by-glaze');
    const link = new URL(String(row(answer, 'Marram Green')!.secondsBehind), 'http://127.0.0.1');
    expect(link.pathname).toBe('/review/seconds-tally/pieces');
    const behind = await tally('pieces', Object.fromEntries(link.searchParams));
    expect(behind.rows).toMatchObject([
      { count: 2, grade: 'second', form: 'tile', story: expect.stringMatching(/^\/ware\//) },
    ]);
    const faulty = await tally('pieces', { by: 'fault', key: 'pinholes' });
    expect(faulty.rows.map((r) => r.count)).toEqual([1, 2]);
  });

  test('holds only the period that is asked for, by the day the firing ended', async () => {
    expect((await tally('by-glaze', { from: '2026-02-15' })).rows).toEqual([]);
    expect((await tally('by-glaze', { from: '2026-02-14', to: '2026-02-14' })).rows).toHaveLength(2);
  });

  test('puts the year before beside a period', async () => {
    const answer = await tally('by-month', { from: '2027-01-01', to: '2027-12-31' });
    expect(answer.rows).toEqual([]);
    const thisYear = await tally('by-month', { from: '2026-01-01', to: '2026-12-31' });
    expect(row(thisYear, '2026-02')).toMatchObject({ piecesBefore: 0, spoiledBefore: 0, rateBefore: null });
  });

  test('as it had happened by the day before the grading, nothing was graded and twelve wait', async () => {
    const answer = await tally('by-glaze', { 'as-at': '2026-02-15' });
    expect(answer.rows).toEqual([]);
    expect(answer.notes.join(' ')).toMatch(/12 pieces are fired and not graded yet/);
  });

  test('as it was known before it was recorded, it is empty', async () => {
    expect((await tally('by-glaze', { 'known-at': '2026-06-29' })).rows).toEqual([]);
    expect((await tally('by-glaze', { 'known-at': '2026-06-30' })).rows).toHaveLength(2);
  });

  test('takes nothing but days, owners and roles', async () => {
    await expect(tally('by-glaze', { from: '31/02/2026' })).rejects.toThrow(/from/);
    await expect(tally('by-glaze', { colour: 'green' })).rejects.toThrow(/colour/);
  });
});

describe('the tally', () => {
  test('changes when the grading is struck out, and again when the strike is', async () => {
    studio = await studioHost();
    await studio.tell(...tiles.slice(0, -1));
    const graded = tiles.findIndex((h) => 'command' in h && h.command === 'piece.grade') + 1;
    const id = `01980000-0000-7000-8000-${String(graded).padStart(12, '0')}`;
    const [struck] = await studio.tell(
      done('2026-02-17', 'entry.strike', { command: id, why: 'wrong shelf' }),
    );
    expect((await tally('by-glaze')).rows).toEqual([]);
    await studio.tell(done('2026-02-18', 'entry.strike', { command: (struck as { id: string }).id }));
    expect(row(await tally('by-glaze'), 'Marram Green')).toMatchObject({ pieces: 12, seconds: 2 });
    await studio.close();
  });

  test('counts a mended jug by its latest grade and the firing that it came from', async () => {
    studio = await studioHost();
    await studio.tell(
      ...materials,
      begin(JUG, 1),
      ...drawn('B1', 'bisque', [JUG], '2026-02-10'),
      glaze(JUG, '2026-02-12'),
      ...drawn('G1', 'glaze', [JUG], '2026-02-14'),
      done('2026-02-15', 'fault.find', { piece: JUG, kind: 'pinholes' }),
      done('2026-02-15', 'piece.grade', { piece: JUG, second: 1 }),
      done('2026-03-01', 'repair.do', { piece: JUG, method: 'refire' }),
      ...drawn('G2', 'glaze', [JUG], '2026-03-02'),
      done('2026-03-03', 'piece.grade', { piece: JUG, first: 1 }),
    );
    expect((await tally('by-month')).rows).toMatchObject([
      { key: '2026-03', pieces: 1, firsts: 1, seconds: 0 },
    ]);
    expect((await tally('by-fault')).rows).toEqual([]);
    await studio.close();
  });

  test('leaves students’ and hired ware out unless asked', async () => {
    studio = await studioHost();
    await studio.tell(
      ...materials,
      done('2026-01-02', 'person.add', { person: 'pupil-1', name: 'Ondine Marsh-Hale' }),
      done('2026-02-01', 'piece.begin', {
        piece: JUG,
        clay: 'fell-white',
        owner: { kind: 'student', person: 'pupil-1' },
      }),
      ...drawn('B1', 'bisque', [JUG], '2026-02-10'),
      glaze(JUG, '2026-02-12'),
      ...drawn('G1', 'glaze', [JUG], '2026-02-14'),
      done('2026-02-15', 'piece.grade', { piece: JUG, second: 1 }),
    );
    expect((await tally('by-glaze')).rows).toEqual([]);
    expect((await tally('by-glaze', { owners: 'student' })).rows).toMatchObject([{ pieces: 1, seconds: 1 }]);
    await studio.close();
  });

  /*
   * Thirty samples of fifty with the numbers that failed: the orange-juice cans of Montgomery,
   * Introduction to Statistical Quality Control (counts from memory; their mean share .2313 is
   * printed in the NIST/SEMATECH e-Handbook, 6.3.3.2). Here a sample is a firing of fifty tiles.
   */
  const CANS = [
    12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7, 13, 9,
    6,
  ];

  test('of thirty firings of fifty agrees with a published mean share', async () => {
    studio = await studioHost();
    await studio.tell(...materials);
    for (const [n, failed] of CANS.entries()) {
      const lot = `01980000-0000-7000-9000-${String(n).padStart(12, '0')}`;
      const day = `2026-03-${String(n + 1).padStart(2, '0')}`;
      await studio.tell(
        done(day, 'piece.begin', { piece: lot, count: 50, clay: 'fell-white' }),
        ...drawn(`B${n}`, 'bisque', [lot], day),
        glaze(lot, day),
        ...drawn(`G${n}`, 'glaze', [lot], day),
        done(day, 'piece.grade', { piece: lot, first: 50 - failed, second: failed }),
      );
    }
    const [march] = (await tally('by-month')).rows;
    expect(march).toMatchObject({ pieces: 1500, seconds: 347 });
    expect(march!.rate).toBeCloseTo(0.2313, 4);
    await studio.close();
  });
});
