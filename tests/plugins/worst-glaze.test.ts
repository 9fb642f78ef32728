import { afterEach, describe, expect, test } from 'vitest';
import type { Answer } from '../../server/contract/figures.ts';
import { wilson } from '../../server/contract/statistics/wilson.ts';
import { done, type Happening } from '../support/given.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';
import { drawn, fired, materials, pounds } from '../support/yard.ts';

let studio: StudioHost;
const worst = (params: Record<string, string> = {}) =>
  studio.host.report('seconds-tally', 'worst-glaze', params);
const row = (answer: Answer, label: string) => answer.rows.find((r) => r.label === label)!;
const behind = async (link: unknown) => {
  const url = new URL(String(link), 'http://127.0.0.1');
  expect(url.pathname).toBe('/review/seconds-tally/worst-glaze-pieces');
  return studio.host.report('seconds-tally', 'worst-glaze-pieces', Object.fromEntries(url.searchParams));
};
const counted = (answer: Answer) => answer.rows.reduce((sum, r) => sum + Number(r.count), 0);

let lots = 0;
interface Made {
  readonly count: number;
  readonly spoiled?: number;
  readonly day?: string;
  readonly glazes: Readonly<Record<string, string>>;
  readonly fault?: { readonly kind: string; readonly zone?: string };
  readonly more?: object;
}
/** A lot through a bisque and a glaze firing of its own, graded. */
function lot({
  count,
  spoiled = 0,
  day = '2026-02-14',
  glazes,
  fault,
  more = {},
}: Made): readonly Happening[] {
  lots += 1;
  const piece = `01980000-0000-7000-9100-${String(lots).padStart(12, '0')}`;
  return [
    done('2026-02-01', 'piece.begin', {
      piece,
      count,
      form: 'tile',
      clay: 'fell-white',
      price: pounds(1000),
      secondPrice: pounds(600),
      ...more,
    }),
    ...drawn(`B${lots}`, 'bisque', [piece], '2026-02-10'),
    ...Object.entries(glazes).map(([zone, glaze]) =>
      done('2026-02-12', 'glaze.apply', { piece, zone, layers: [{ glaze, coats: 1 }] }),
    ),
    ...fired(`G${lots}`, 'glaze', [piece], day),
    ...(fault ? [done(day, 'fault.find', { piece, ...fault, count: spoiled })] : []),
    done(day, 'piece.grade', { piece, first: count - spoiled, second: spoiled }),
    done(day, 'firing.draw', { firing: `G${lots}` }),
  ];
}

/** Marram Green outside pinholes where it is; Cuttle White inside does not. */
const green = { outside: 'marram-green', inside: 'cuttle-white' };
const clear: readonly Happening[] = [
  ...materials,
  ...[1, 2, 3, 4].flatMap(() =>
    lot({ count: 20, spoiled: 8, glazes: green, fault: { kind: 'pinholes', zone: 'outside' } }),
  ),
  ...[1, 2, 3, 4].flatMap(() => lot({ count: 20, spoiled: 1, glazes: { inside: 'cuttle-white' } })),
];

describe('the worst glaze', () => {
  afterEach(() => studio.close());

  test('is the one on whose zone the faults are, and the sentence says how sure that is', async () => {
    studio = await studioHost();
    await studio.tell(...clear);
    const answer = await worst();
    expect(answer.sentence).toMatch(
      /^Marram Green caused the most: \d+ of its 32 seconds and wasters are laid at its door \(between \d+ and \d+\); the chance that it is the worst of all is (100|over 99) %\.$/,
    );
    const guilty = row(answer, 'Marram Green');
    expect(guilty).toMatchObject({
      kind: 'glaze',
      glaze: 'Marram Green',
      pieces: 80,
      seconds: 32,
      rate: 0.4,
      verdict: 'adds seconds of its own',
      currency: 'GBP',
    });
    expect(guilty.chanceWorst).toBeGreaterThan(0.99);
    expect(guilty.chanceHighestRate).toBeGreaterThan(0.99);
    expect(row(answer, 'Cuttle White')).toMatchObject({ pieces: 160, seconds: 36 });
    expect(row(answer, 'Cuttle White').laidHigh).toBeLessThanOrEqual(4);
  });

  test('shares out all seconds and all money, no more and no less', async () => {
    studio = await studioHost();
    await studio.tell(...clear);
    const { rows } = await worst();
    const add = (field: string) => rows.reduce((sum, r) => sum + Number(r[field]), 0);
    expect(add('laid')).toBeCloseTo(36, 6);
    expect(Math.abs(add('lost') - 36 * 400)).toBeLessThanOrEqual(rows.length);
    expect(new Set(rows.map((r) => r.kind))).toEqual(new Set(['glaze', 'firing', 'background']));
  });

  test('gives a rate with Wilson’s limits, and 90 % limits to what is laid at a door', async () => {
    studio = await studioHost();
    await studio.tell(...clear);
    const guilty = row(await worst(), 'Marram Green');
    const { low, high } = wilson({ affected: 32, pieces: 80 });
    expect(guilty).toMatchObject({ low, high });
    expect(guilty.laidLow).toBeLessThan(guilty.laid as number);
    expect(guilty.laidHigh).toBeGreaterThan(guilty.laid as number);
    expect(guilty.laidHigh).toBeLessThanOrEqual(32);
  });

  test('leads from every number to the pieces behind it', async () => {
    studio = await studioHost();
    await studio.tell(...clear);
    const { rows } = await worst();
    for (const r of rows) {
      expect(counted(await behind(r.piecesBehind)), `pieces of ${r.label}`).toBe(r.pieces);
      expect(counted(await behind(r.secondsBehind)), `seconds of ${r.label}`).toBe(r.seconds);
    }
    const suspected = await behind(row(await worst(), 'Cuttle White').laidBehind);
    expect(counted(suspected)).toBe(4);
    expect(suspected.sentence).toMatch(/^4 seconds and wasters that may be its doing/);
  });

  test('is not said where the two glazes were never apart', async () => {
    studio = await studioHost();
    await studio.tell(
      ...materials,
      ...lot({ count: 30, spoiled: 10, glazes: green }),
      ...lot({ count: 30, spoiled: 1, glazes: {} }),
    );
    const answer = await worst();
    const together = row(answer, 'Cuttle White with Marram Green');
    expect(together).toMatchObject({ kind: 'glaze', pieces: 30, inseparable: true });
    expect(answer.notes.join(' ')).toMatch(/not to be told apart: Cuttle White, Marram Green/);
  });

  test('is not a glaze that is on everything', async () => {
    studio = await studioHost();
    await studio.tell(...materials, ...lot({ count: 30, spoiled: 10, glazes: { inside: 'marram-green' } }));
    expect((await worst()).sentence).toMatch(
      /Marram Green comes first, but was never without .*: the record cannot tell them apart/,
    );
  });

  test('cannot be told from a handful of pieces', async () => {
    studio = await studioHost();
    await studio.tell(
      ...materials,
      ...lot({ count: 4, spoiled: 1, glazes: { inside: 'marram-green' } }),
      ...lot({ count: 4, spoiled: 1, glazes: { inside: 'cuttle-white' } }),
    );
    const answer = await worst();
    expect(answer.sentence).toMatch(/^Too few to say which glaze caused the most/);
    expect(row(answer, 'Marram Green').verdict).toBe('too few to say');
  });

  test('counts a pot as its first glaze firing left it, whatever mending made of it later', async () => {
    studio = await studioHost();
    const [before, after] = [lot({ count: 1, spoiled: 1, glazes: green }), [] as Happening[]];
    const piece = `01980000-0000-7000-9100-${String(lots).padStart(12, '0')}`;
    after.push(
      done('2026-03-01', 'repair.do', { piece, method: 'refire' }),
      ...drawn('G-again', 'glaze', [piece], '2026-03-02'),
      done('2026-03-03', 'piece.grade', { piece, first: 1 }),
    );
    await studio.tell(...materials, ...before, ...after);
    const answer = await worst({ to: '2026-02-28' });
    expect(answer.rows.find((r) => r.kind === 'background' || r.kind === 'glaze')).toMatchObject({
      pieces: 1,
      seconds: 1,
    });
    expect(answer.rows.reduce((sum, r) => sum + Number(r.lost), 0)).toBe(0);
  });

  test('asks for a period and for whose ware counts', async () => {
    studio = await studioHost();
    await studio.tell(
      ...clear,
      done('2026-01-02', 'person.add', { person: 'pupil-1', name: 'Ondine Marsh-Hale' }),
      ...lot({
        count: 5,
        spoiled: 5,
        glazes: green,
        more: { owner: { kind: 'student', person: 'pupil-1' } },
      }),
    );
    expect((await worst({ from: '2026-02-15' })).sentence).toBe('No graded pieces in this time.');
    expect(row(await worst(), 'Marram Green').pieces).toBe(80);
    expect(row(await worst({ owners: 'own,student' }), 'Marram Green').pieces).toBe(85);
  });

  test('leaves ungraded ware out, and says so', async () => {
    studio = await studioHost();
    const ungraded = lot({ count: 7, glazes: green }).filter(
      (it) => !('command' in it) || it.command !== 'piece.grade',
    );
    await studio.tell(...clear, ...ungraded);
    const answer = await worst();
    expect(row(answer, 'Marram Green').pieces).toBe(80);
    expect(answer.notes.join(' ')).toMatch(/7 pieces were not graded after the first glaze firing/);
  });

  test('is the same each time it is asked, and another one when a grading is struck out', async () => {
    studio = await studioHost();
    await studio.tell(...clear);
    const answer = await worst();
    expect(await worst()).toEqual(answer);
    const at = clear.findIndex((it) => 'command' in it && it.command === 'piece.grade') + 1;
    await studio.tell(
      done('2026-02-17', 'entry.strike', {
        command: `01980000-0000-7000-8000-${String(at).padStart(12, '0')}`,
        why: 'wrong shelf',
      }),
    );
    expect(row(await worst(), 'Marram Green')).toMatchObject({ pieces: 60, seconds: 24 });
  });
});
