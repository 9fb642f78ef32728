import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Answer } from '../../../server/contract/figures.ts';
import { CANS } from '../../contract/statistics/published.ts';
import { done } from '../../support/given.ts';
import { type StudioHost, studioHost } from '../../support/studio-host.ts';
import { dayNumber, fire, type LotIn, lotId, stores } from './load.ts';

let studio: StudioHost;
const rates = (report: string, params: Record<string, string> = {}) =>
  studio.host.report('defect-rates', report, params);
/** The pieces that a number leads to. */
const behind = async (address: unknown) => {
  const { pathname, searchParams } = new URL(String(address), 'http://127.0.0.1');
  return (await rates(pathname.split('/').at(-1)!, Object.fromEntries(searchParams))).rows;
};
const countedIn = (rows: Answer['rows']) => rows.reduce((sum, r) => sum + Number(r.count), 0);
const adjusted = (answer: Answer) => answer.rows.find((r) => r.kind === 'adjusted')!;

const samphire = (count: number, seconds: number): LotIn => ({
  count,
  seconds,
  glazes: { outside: 'samphire-matt' },
});
const other = (count: number, seconds: number): LotIn => ({
  count,
  seconds,
  glazes: { outside: 'marram-green' },
});
const runny = (count: number, seconds: number): LotIn => ({
  count,
  seconds,
  glazes: { outside: 'quicksilver-run' },
});

describe('a glaze that was mostly bisqued by day', () => {
  beforeAll(async () => {
    studio = await studioHost();
    await studio.tell(...stores);
    // By day six in ten are spoiled, overnight one in ten, whatever glaze is on it; Quicksilver Run is bad on both.
    for (let n = 0; n < 8; n++)
      await studio.tell(
        ...fire({
          firing: `D${n}`,
          day: dayNumber(4 * n),
          bisque: 'daytime-bisque-06',
          lots: [samphire(20, n % 2 ? 13 : 11), other(4, n % 2 ? 1 : 3), runny(4, 3)],
        }),
        ...fire({
          firing: `N${n}`,
          day: dayNumber(4 * n + 2),
          lots: [samphire(3, n % 4 === 0 ? 1 : 0), other(20, n % 2 ? 3 : 1), runny(4, n % 2 ? 2 : 1)],
        }),
      );
  });
  afterAll(() => studio.close());

  test('looks bad by itself', async () => {
    const answer = await rates('by-glaze');
    const row = answer.rows.find((r) => r.key === 'Samphire Matt')!;
    expect(row).toMatchObject({ pieces: 184, affected: 98, firings: 16 });
    expect(row.p as number).toBeLessThan(0.001);
  });

  test('is cleared once the bisque schedule is allowed for', async () => {
    const answer = await rates('glaze-within-schedule', { glaze: 'Samphire Matt', role: 'bisque' });
    expect(answer.sentence).toMatch(
      /^Samphire Matt looks bad \(98 of 184, against \d+ % of the rest\), but only on Daytime Bisque 06 \(96 of 160\); on Overnight Bisque 06 it is as good as the rest; its odds are \d\.\d times/,
    );
    const { oddsRatio, oddsLow, oddsHigh, drawnLow, drawnHigh, fisherP } = adjusted(answer);
    expect(fisherP as number).toBeLessThan(0.001);
    expect(oddsLow as number).toBeLessThan(1);
    expect(oddsHigh as number).toBeGreaterThan(oddsRatio as number);
    expect(drawnLow as number).toBeLessThan(1);
    expect(drawnHigh as number).toBeGreaterThan(0.5);
    expect(answer.rows.filter((r) => r.kind === 'stratum')).toMatchObject([
      { key: 'Daytime Bisque 06, Fell White', pieces: 160, affected: 96, restPieces: 64, restAffected: 40 },
      { key: 'Overnight Bisque 06, Fell White', pieces: 24, affected: 2, restPieces: 192, restAffected: 28 },
    ]);
    // Mantel and Haenszel (1959) by hand: (96·24/224 + 2·164/216) / (64·40/224 + 22·28/216).
    expect(oddsRatio).toBeCloseTo((2304 / 224 + 328 / 216) / (2560 / 224 + 616 / 216), 10);
  });

  test('leads to the pieces within each schedule, with the glaze and without it', async () => {
    const answer = await rates('glaze-within-schedule', { glaze: 'Samphire Matt', role: 'bisque' });
    const [daytime] = answer.rows.filter((r) => r.kind === 'stratum');
    for (const [link, count] of [
      ['piecesBehind', 160],
      ['affectedBehind', 96],
      ['restPiecesBehind', 64],
      ['restAffectedBehind', 40],
    ] as const)
      expect(countedIn(await behind(daytime![link])), link).toBe(count);
  });

  test('has all that acts on it at once in one table, each against its reference', async () => {
    const answer = await rates('glaze-within-schedule', { glaze: 'Samphire Matt', role: 'bisque' });
    const [glaze, bisque, ...none] = answer.rows.filter((r) => r.kind === 'factor');
    expect(none).toEqual([]);
    expect(glaze).toMatchObject({ label: 'Samphire Matt', factor: 'glaze', reference: 'without it' });
    expect(bisque).toMatchObject({
      label: 'Overnight Bisque 06',
      factor: 'bisque schedule',
      reference: 'Daytime Bisque 06',
    });
    expect(glaze!.low as number).toBeLessThan(1);
    expect(glaze!.high as number).toBeGreaterThan(glaze!.odds as number);
    expect(bisque!.high as number).toBeLessThan(0.3);
  });

  test('is tested in each schedule piece by piece and with firings as the luck they are', async () => {
    const answer = await rates('glaze-within-schedule', { glaze: 'quicksilver-run', role: 'bisque' });
    const overnight = answer.rows.find((r) => r.schedule === 'Overnight Bisque 06')!;
    expect(overnight.fisherP as number).toBeLessThan(0.05);
    expect(overnight.clusterP as number).toBeGreaterThan(0);
    expect(adjusted(answer).clusterP as number).toBeLessThan(0.001);
  });

  test('is not mistaken for one that is bad everywhere', async () => {
    const answer = await rates('glaze-within-schedule', { glaze: 'quicksilver-run', role: 'bisque' });
    expect(answer.sentence).toMatch(
      /^Quicksilver Run \(36 of 64, against \d+ % of the rest\) is worse than other ware, the schedule and clay allowed for: its odds are \d+\.\d times/,
    );
    expect(adjusted(answer).drawnLow as number).toBeGreaterThan(1);
    expect(adjusted(answer).modelLow as number).toBeGreaterThan(1);
  });

  test('stands in the list as no worse once firings are taken as the luck they are, or is named', async () => {
    const answer = await rates('by-schedule', { role: 'bisque' });
    expect(answer.sentence).toMatch(
      /Worse than the rest, beyond chance: Daytime Bisque 06 \(136 of 224; between/,
    );
  });

  test('is too little to go by where it was in few firings', async () => {
    const answer = await rates('glaze-within-schedule', { glaze: 'Samphire Matt', to: dayNumber(7) });
    expect(answer.sentence).toMatch(
      /^Samphire Matt \(\d+ of \d+, against \d+ % of the rest\) was in few firings \(4\): too few to say;/,
    );
  });

  test('of which there is none is said to be missing', async () => {
    const answer = await rates('glaze-within-schedule', { glaze: 'Cuttle White' });
    expect(answer).toMatchObject({
      sentence: 'No inspected pieces with Cuttle White in this time.',
      rows: [],
    });
  });
});

describe('a glaze that was only ever fired on one schedule', () => {
  test('is not judged: the record cannot tell the two apart, and both are named', async () => {
    studio = await studioHost();
    await studio.tell(...stores);
    for (let n = 0; n < 3; n++)
      await studio.tell(
        ...fire({
          firing: `D${n}`,
          day: dayNumber(2 * n),
          bisque: 'daytime-bisque-06',
          lots: [samphire(10, 5)],
        }),
        ...fire({ firing: `N${n}`, day: dayNumber(2 * n + 1), lots: [other(10, 1)] }),
      );
    const answer = await rates('glaze-within-schedule', { glaze: 'samphire-matt', role: 'bisque' });
    expect(answer.sentence).toMatch(/never fired beside anything it can be compared with/);
    expect(adjusted(answer)).toMatchObject({ oddsRatio: null, oddsLow: null, modelOdds: null });
    expect(answer.notes.join(' ')).toMatch(
      /The record cannot tell Samphire Matt and Daytime Bisque 06 apart: they always change together/,
    );
    await studio.close();
  });
});

describe('thirty firings of fifty tiles', () => {
  beforeAll(async () => {
    studio = await studioHost();
    await studio.tell(...stores);
    for (const [n, { affected }] of CANS.entries())
      await studio.tell(
        ...fire({
          firing: `G${n + 1}`,
          day: dayNumber(n),
          lots: [{ count: 50, seconds: affected, fault: 'pinholes', faulty: n % 10 === 4 ? 2 : 0 }],
        }),
      );
  });
  afterAll(() => studio.close());

  /*
   * The orange-juice cans of D. C. Montgomery (NIST/SEMATECH e-Handbook 6.3.3.2): mean .2313, limits
   * .0524 and .4102, samples 15 and 23 out; counts and limits from memory, reproduced by R 4.2.2.
   */
  test('have the limits of the textbook, and the two firings outside are named with their log', async () => {
    const answer = await rates('chart', { kiln: 'Big Round' });
    expect(answer.rows).toHaveLength(30);
    const first = answer.rows[0]!;
    expect(first).toMatchObject({
      firing: 'G1',
      date: '2026-01-02',
      pieces: 50,
      affected: 12,
      story: '/kilns/G1',
    });
    expect(first.centre).toBeCloseTo(0.2313, 4);
    expect(first.lower).toBeCloseTo(0.0524, 4);
    expect(first.upper).toBeCloseTo(0.4102, 4);
    expect(answer.rows.filter((r) => r.out).map((r) => r.firing)).toEqual(['G15', 'G23']);
    expect(`${answer.sentence} ${answer.notes.join(' ')}`).toMatch(/G15, 16 January 2026 \(22 of 50\)/);
  });

  test('vary more than pieces taken singly would, so the wider limits are told too', async () => {
    const answer = await rates('chart', { glaze: 'Marram Green' });
    const first = answer.rows[0]!;
    expect(first.wideUpper as number).toBeGreaterThan(first.upper as number);
    expect(answer.notes.join(' ')).toMatch(/Firings vary 1\.\d times as much .* \(Laney\)/);
  });

  test('of a rare fault are counted between one firing with it and the next', async () => {
    const answer = await rates('chart', { kiln: 'big-round', outcome: 'pinholes' });
    // Firings 5, 15 and 25 had it: nine between, five since.
    expect(answer.notes.join(' ')).toMatch(
      /Firings without pinholes between two with: 9\.0 on average, up to 37 by chance; 5 since the last/,
    );
    expect(answer.sentence).toMatch(/Too few for limits firing by firing\.$/);
  });

  /* Benneyan (2001): three deviations about a mean of 9, reproduced by hand: 9 + 3·√(9·10) = 37.46. */
  test('and drawn so, with the limits of what lies between, before the limits firing by firing', async () => {
    const { rows, figures } = await rates('chart', { kiln: 'big-round', outcome: 'pinholes' });
    expect(figures[0]).toMatchObject({
      figure: 'series',
      title: 'Firings without pinholes between two with',
      only: 'gap',
    });
    const gaps = rows.filter((r) => r.kind === 'gap');
    expect(gaps).toMatchObject([
      { firing: 'G15', gap: 9, gapOut: false },
      { firing: 'G25', gap: 9, gapCentre: 9, gapLower: 0 },
    ]);
    expect(gaps[0]!.gapUpper).toBeCloseTo(37.4605, 4);
    expect(rows.filter((r) => r.gap !== undefined && r.kind !== 'gap')).toEqual([]);
  });

  test('lead to their pieces, those affected and all of them', async () => {
    const { rows } = await rates('chart', { kiln: 'big-round' });
    const fifteenth = rows.find((r) => r.firing === 'G15')!;
    expect(await behind(fifteenth.piecesBehind)).toMatchObject([
      { piece: lotId('G15', 0), count: 28, grade: 'first' },
      { count: 22, grade: 'second' },
    ]);
    expect(await behind(fifteenth.affectedBehind)).toMatchObject([{ count: 22, grade: 'second' }]);
  });

  test('are asked for by kiln or by glaze, not both', async () => {
    await expect(rates('chart', { kiln: 'big-round', glaze: 'marram-green' })).rejects.toThrow(/glaze/);
    expect((await rates('chart', { kiln: 'little-square' })).sentence).toBe(
      'No inspected pieces in this time.',
    );
  });

  test('before and after a day differ as Newcombe says, piece by piece', async () => {
    const answer = await rates('before-after', { date: dayNumber(15), glaze: 'Marram Green' });
    const [row] = answer.rows;
    const sum = (from: number, to: number) => CANS.slice(from, to).reduce((all, s) => all + s.affected, 0);
    expect(row).toMatchObject({
      beforeAffected: sum(0, 15),
      afterAffected: sum(15, 30),
      beforePieces: 750,
      afterPieces: 750,
      beforeFirings: 15,
    });
    expect(row!.difference).toBeCloseTo((sum(15, 30) - sum(0, 15)) / 750, 12);
    expect(row!.low as number).toBeLessThan(row!.difference as number);
    // Whole firings vary more than single pieces: the wider limits hold the narrower ones.
    expect(row!.clusterLow as number).toBeLessThan(row!.low as number);
    expect(row!.clusterHigh as number).toBeGreaterThan(row!.high as number);
    expect(Math.abs((row!.drawnLow as number) - (row!.clusterLow as number))).toBeLessThan(0.03);
    expect(answer.sentence).toMatch(
      /^Seconds and wasters: \d+ % before 17 January 2026, \d+ % from then on; .*: no change beyond chance\.$/,
    );
  });

  test('have nothing to compare before the first of them', async () => {
    const answer = await rates('before-after', { date: '2026-01-01' });
    expect(answer.sentence).toBe('There are no inspected pieces before 1 January 2026: nothing to compare.');
  });
});

describe('a change that helped', () => {
  test('is said to go with fewer, beyond chance', async () => {
    studio = await studioHost();
    await studio.tell(...stores);
    for (let n = 0; n < 12; n++)
      await studio.tell(
        ...fire({ firing: `G${n}`, day: dayNumber(n), lots: [other(20, (n < 6 ? 9 : 1) + (n % 3))] }),
      );
    const answer = await rates('before-after', { date: dayNumber(6) });
    expect(answer.sentence).toMatch(
      /^Seconds and wasters: 50 % before .*, 10 % from then on; a difference between −\d+ and −\d+ in a hundred is believable: the change goes with fewer, beyond chance\.$/,
    );
    await studio.close();
  });
});

describe('repairs', () => {
  test('are counted by what the next grade said, for the fault they were for', async () => {
    studio = await studioHost();
    const mend = (firing: string, method: string, grade: object, fault?: string) => [
      done('2026-02-03', 'repair.do', { piece: lotId(firing, 0), method, ...(fault ? { fault } : {}) }),
      done('2026-02-05', 'piece.grade', { piece: lotId(firing, 0), ...grade }),
    ];
    const jug = (firing: string, spoiled: object, fault: string) =>
      fire({ firing, day: '2026-02-01', lots: [{ count: 1, fault, faulty: 1, ...spoiled }] });
    await studio.tell(
      ...stores,
      ...jug('A', { seconds: 1 }, 'runs'),
      ...mend('A', 'grind', { first: 1 }),
      ...jug('B', { seconds: 1 }, 'runs'),
      ...mend('B', 'grind', { second: 1 }, 'runs'),
      ...jug('C', { wasters: 1 }, 'runs'),
      ...mend('C', 'grind', { second: 1 }),
      ...jug('D', { seconds: 1 }, 'pinholes'),
      ...mend('D', 'cold-finish', { second: 1 }),
      ...jug('E', { seconds: 1 }, 'pinholes'),
      done('2026-02-03', 'repair.do', { piece: lotId('E', 0), method: 'cold-finish' }),
    );
    const answer = await rates('repairs');
    expect(answer.rows).toMatchObject([
      { fault: 'runs', repair: 'grind', tried: 3, worked: 2 },
      { fault: 'pinholes', repair: 'cold-finish', tried: 1, worked: 0, rate: 0 },
    ]);
    const [grind, finish] = answer.rows;
    expect(grind!.even as number).toBeLessThan(2 / 3);
    expect(finish!.even as number).toBeGreaterThan(0);
    // Wilson's limits of 2 of 3 by hand.
    expect(grind!.low).toBeCloseTo(0.2077, 4);
    expect(grind!.high).toBeCloseTo(0.9385, 4);
    expect(answer.sentence).toMatch(
      /^2 of 4 repairs worked \(50 %\)\. Evened out, the best is: grind for runs/,
    );
    expect(answer.notes.join(' ')).toMatch(/1 mended piece is not graded since/);
    expect((await rates('repairs', { from: '2026-03-01' })).sentence).toBe(
      'No repair has been judged by a grade in this time.',
    );
    await studio.close();
  });
});

describe('a change with a name', () => {
  beforeAll(async () => {
    studio = await studioHost();
    await studio.tell(...stores);
    const half = (firings: readonly string[], day: number, spoiled: number, more: object = {}) =>
      firings.flatMap((firing, n) =>
        fire({ firing, day: dayNumber(day + n), lots: [{ count: 20, seconds: spoiled + (n % 2), ...more }] }),
      );
    const old = ['A1', 'A2', 'A3', 'A4', 'A5', 'A6'];
    const young = ['B1', 'B2', 'B3', 'B4', 'B5', 'B6'];
    await studio.tell(
      ...half(old, 0, 10),
      done(dayNumber(10), 'clay.open-batch', { id: 'fell-white', batch: '12 b' }),
      done(dayNumber(10), 'schedule.write', { name: 'Glaze 6 Plain' }),
      ...half(young, 10, 1),
    );
  });
  afterAll(() => studio.close());

  test('stands in a list to choose from, the newest first', async () => {
    const answer = await rates('before-after', {});
    expect(answer.sentence).toBe('To see before and after, choose a day, or one of these changes.');
    expect(answer.rows.map((r) => r.label)).toEqual([
      'Fell White, batch 12 b',
      'Glaze 6 Plain, as it was written for the second time',
      'Glaze 6 Plain, first used',
      'Overnight Bisque 06, first used',
    ]);
    const [batch] = answer.rows;
    const { searchParams } = new URL(String(batch!.labelBehind), 'http://127.0.0.1');
    expect((await rates('before-after', Object.fromEntries(searchParams))).sentence).toMatch(/batch 12 b/);
  });

  test('is asked for by that name: a new batch of clay, for the ware begun from it', async () => {
    const answer = await rates('before-after', { switch: 'Fell White, batch 12 b' });
    expect(answer.sentence).toMatch(
      /^Seconds and wasters: 53 % begun before Fell White, batch 12 b was opened on 12 January 2026, 8 % begun from then on; .*: the change goes with fewer, beyond chance\.$/,
    );
    const [difference, before, after] = answer.rows;
    expect(difference).toMatchObject({ beforePieces: 120, afterPieces: 120, beforeFirings: 6 });
    expect(difference!.clusterP as number).toBeLessThan(0.001);
    expect(countedIn(await behind(before!.affectedBehind))).toBe(63);
    expect(countedIn(await behind(after!.piecesBehind))).toBe(120);
  });

  test('or a schedule written anew, for the kilns packed from then on', async () => {
    const answer = await rates('before-after', {
      switch: 'glaze 6 plain, as it was written for the second time',
    });
    expect(answer.rows[0]).toMatchObject({ beforeAffected: 63, afterAffected: 9 });
    expect(countedIn(await behind(answer.rows[2]!.affectedBehind))).toBe(9);
  });

  test('that is not on record is said to be missing, with those that are', async () => {
    const answer = await rates('before-after', { switch: 'The new chimney' });
    expect(answer.sentence).toMatch(/^The record names no change “The new chimney”: choose a day, or one/);
    expect(answer.rows).toHaveLength(4);
    await expect(rates('before-after', { switch: 'x', date: '2026-01-05' })).rejects.toThrow(/switch/);
  });

  test('seen in few firings says so, and nothing is called better', async () => {
    const answer = await rates('before-after', { date: dayNumber(10), to: dayNumber(12) });
    expect(answer.rows[0]).toMatchObject({ afterFirings: 3 });
    expect(answer.sentence).toMatch(/: fewer, but in too few firings to say\.$/);
    expect(answer.notes).toContain('Few firings: 6 before, 3 after.');
  });
});

describe('two clays that were each only ever fired on one schedule', () => {
  test('are named where all factors are asked about at once', async () => {
    studio = await studioHost();
    await studio.tell(...stores);
    for (let n = 0; n < 3; n++) {
      const lots = (clay: string): LotIn[] => [
        { ...other(10, 1), clay },
        { ...samphire(10, 5), clay },
      ];
      await studio.tell(
        ...fire({
          firing: `S${n}`,
          day: dayNumber(2 * n),
          schedule: 'glaze-6-soak',
          lots: lots('otterfold-buff'),
        }),
        ...fire({ firing: `P${n}`, day: dayNumber(2 * n + 1), lots: lots('fell-white') }),
      );
    }
    const answer = await rates('glaze-within-schedule', { glaze: 'samphire-matt' });
    expect(answer.rows.filter((r) => r.kind === 'factor').map((r) => r.label)).toEqual([
      'Samphire Matt',
      'Otterfold Buff',
    ]);
    expect(answer.notes).toContain(
      'The record cannot tell Otterfold Buff and Glaze 6 Soak apart: they always change together.',
    );
    await studio.close();
  });
});
