import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Answer } from '../../../server/contract/figures.ts';
import { done } from '../../support/given.ts';
import { type StudioHost, studioHost } from '../../support/studio-host.ts';
import { fire, lotId, stores } from './load.ts';

let studio: StudioHost;
const rates = (report: string, params: Record<string, string> = {}) =>
  studio.host.report('defect-rates', report, params);
const row = (answer: Answer, key: string) => answer.rows.find((r) => r.key === key);

describe('nine of thirty-one tiles', () => {
  beforeAll(async () => {
    studio = await studioHost();
    await studio.tell(
      ...stores,
      done('2026-01-02', 'person.add', { person: 'pupil-1', name: 'Ondine Marsh-Hale' }),
      ...fire({
        firing: 'G1',
        day: '2026-02-01',
        lots: [
          {
            count: 16,
            seconds: 6,
            wasters: 1,
            glazes: { outside: 'cuttle-white > marram-green' },
            coats: 2,
            method: 'brushed',
            shelf: 1,
            fault: 'pinholes',
          },
          { count: 12, seconds: 1, glazes: { outside: 'cuttle-white' }, clay: 'otterfold-buff', shelf: 2 },
        ],
      }),
      ...fire({
        firing: 'G2',
        day: '2026-02-08',
        schedule: 'glaze-6-soak',
        bisque: 'daytime-bisque-06',
        kiln: 'little-square',
        lots: [
          {
            count: 15,
            seconds: 2,
            glazes: { inside: 'marram-green' },
            shelf: 1,
            fault: 'pinholes',
            faulty: 3,
          },
          { count: 5, waits: true },
          { count: 4, seconds: 4, owner: { kind: 'student', person: 'pupil-1' } },
        ],
      }),
    );
  });
  afterAll(() => studio.close());

  test('are said with their range: Marram Green', async () => {
    const answer = await rates('by-glaze');
    const marram = row(answer, 'Marram Green')!;
    expect(marram).toMatchObject({ pieces: 31, firings: 2, affected: 9, id: 'marram-green' });
    // Wilson's limits of 9 of 31 by hand: (9 + 1.92 ∓ 1.96·√(9·22/31 + .96)) / 34.84.
    expect(marram.low).toBeCloseTo(0.16096, 5);
    expect(marram.high).toBeCloseTo(0.46592, 5);
    expect(marram.clusterLow as number).toBeLessThan(marram.low as number);
    expect(marram.clusterHigh as number).toBeGreaterThan(marram.high as number);
    expect(marram.says).toMatch(/^9 of 31; between \d+ % and \d+ % is believable, from few firings \(2\)$/);
  });

  test('have an evened-out rate between their own and the other glaze’s, and a test against the rest', async () => {
    const answer = await rates('by-glaze');
    const [marram, cuttle] = [row(answer, 'Marram Green')!, row(answer, 'Cuttle White')!];
    expect(marram.even as number).toBeGreaterThan(marram.evenLow as number);
    expect(marram.even as number).toBeLessThan(marram.evenHigh as number);
    // Fisher's exact test of 9 of 31 against 1 of 12, two-sided: hypergeometric sums by hand.
    expect(marram.p).toBeCloseTo(0.236638, 6);
    expect(marram.q as number).toBeGreaterThanOrEqual(marram.p as number);
    expect(cuttle).toMatchObject({ pieces: 28, affected: 8, firings: 1, clusterLow: null, clusterP: null });
    expect(cuttle.says).toMatch(/were that one firing like any other/);
    expect(answer.notes.join(' ')).toMatch(/With two rows there is little to even out with/);
    expect(answer.notes.join(' ')).toMatch(/Cuttle White: in one firing only/);
  });

  test('leave out what waits and say so, and students’ ware unless asked', async () => {
    const answer = await rates('by-clay');
    expect(answer.notes.join(' ')).toMatch(/5 pieces are fired and not graded yet, and left out/);
    expect(row(answer, 'Fell White')).toMatchObject({ pieces: 31 });
    const theirs = await rates('by-clay', { owners: 'student' });
    expect(theirs.rows).toMatchObject([{ key: 'Fell White', pieces: 4, affected: 4 }]);
  });

  test('can be asked for wasters, or for one fault, also where it cost no grade', async () => {
    expect(row(await rates('by-glaze', { outcome: 'wasters' }), 'Marram Green')).toMatchObject({
      affected: 1,
      pieces: 31,
    });
    const pinholes = await rates('by-glaze', { outcome: 'pinholes' });
    expect(row(pinholes, 'Marram Green')).toMatchObject({ affected: 10, pieces: 31 });
    expect(row(pinholes, 'Cuttle White')).toMatchObject({ affected: 7, pieces: 28 });
    expect(pinholes.sentence).toMatch(/^Pinholes: 10 of 43 inspected pieces \(23 %\)/);
  });

  test.each([
    ['by-schedule', {}, 'Glaze 6 Soak', 15, 2],
    ['by-schedule', { role: 'bisque' }, 'Overnight Bisque 06', 28, 8],
    ['by-kiln', {}, 'Big Round', 28, 8],
    ['by-kiln', { role: 'bisque' }, 'Little Square', 15, 2],
    ['by-shelf', {}, 'Big Round, shelf 1', 16, 7],
    ['by-coats', {}, '4 coats', 16, 7],
    ['by-coats', {}, '1 coat', 27, 3, 2],
    ['by-method', {}, 'brushed', 16, 7],
    ['by-layers', {}, 'Cuttle White > Marram Green', 16, 7],
    ['by-layers', {}, 'Marram Green', 15, 2],
    ['glaze-on-clay', {}, 'Cuttle White on Otterfold Buff', 12, 1],
    ['glaze-on-schedule', {}, 'Marram Green on Glaze 6 Soak', 15, 2],
    ['glaze-on-schedule', { role: 'bisque' }, 'Marram Green on Overnight Bisque 06', 16, 7],
  ] as [string, Record<string, string>, string, number, number, number?][])(
    '%s %o: %s',
    async (report, params, key, pieces, affected, firings = 1) => {
      const found = row(await rates(report, params), key)!;
      expect(found).toMatchObject({ pieces, affected, firings });
      expect(found.rate).toBeCloseTo(affected / pieces, 12);
    },
  );

  test('say that firings are bisque firings where the bisque is asked about', async () => {
    const answer = await rates('by-schedule', { role: 'bisque' });
    expect(answer.notes).toContain('Firings are bisque firings here.');
  });

  test('show the ranking first and then the same as a table', async () => {
    const { figures } = await rates('by-glaze');
    expect(figures.map((f) => f.figure)).toEqual(['ranking', 'table']);
  });

  test('lead on: a glaze to whether it is the firing, a kiln to its firings', async () => {
    const glaze = row(await rates('by-glaze', { from: '2026-02-01' }), 'Marram Green')!;
    const kiln = row(await rates('by-kiln'), 'Big Round')!;
    const open = (address: unknown) => {
      const { pathname, searchParams } = new URL(String(address), 'http://127.0.0.1');
      return rates(pathname.split('/').at(-1)!, Object.fromEntries(searchParams));
    };
    expect((await open(glaze.labelBehind)).sentence).toMatch(/^Marram Green \(9 of 31/);
    expect((await open(kiln.labelBehind)).rows).toMatchObject([{ firing: 'G1', story: '/kilns/G1' }]);
  });

  test('hold only the period that is asked for', async () => {
    expect((await rates('by-glaze', { from: '2026-02-02' })).rows).toMatchObject([{ pieces: 15 }]);
    const empty = await rates('by-glaze', { from: '2027-01-01' });
    expect(empty).toMatchObject({ rows: [], sentence: 'No inspected pieces in this time.' });
  });

  test('as had happened before the second firing, only the first counts', async () => {
    expect(row(await rates('by-glaze', { 'as-at': '2026-02-07' }), 'Marram Green')).toMatchObject({
      pieces: 16,
    });
  });

  test('take nothing but days, owners, outcomes and roles', async () => {
    await expect(rates('by-glaze', { outcome: 'Bad Luck' })).rejects.toThrow(/outcome/);
    await expect(rates('by-glaze', { role: 'bisque' })).rejects.toThrow(/role/);
  });
});

describe('a glaze that was in few firings', () => {
  beforeAll(async () => {
    studio = await studioHost();
    await studio.tell(...stores);
    for (let n = 0; n < 8; n++)
      await studio.tell(
        ...fire({
          firing: `G${n}`,
          day: `2026-02-0${n + 1}`,
          lots: [
            { count: 20, seconds: 1, glazes: { outside: 'cuttle-white' } },
            ...(n < 3 ? [{ count: 20, seconds: 18, glazes: { outside: 'samphire-matt' } }] : []),
          ],
        }),
      );
  });
  afterAll(() => studio.close());

  test('is not called different, however bad it was in them', async () => {
    const answer = await rates('by-glaze');
    const samphire = row(answer, 'Samphire Matt')!;
    expect(samphire).toMatchObject({ affected: 54, pieces: 60, firings: 3 });
    expect(samphire.clusterQ as number).toBeLessThan(0.05);
    expect(samphire.says).toMatch(/, from few firings \(3\)$/);
    expect(answer.sentence).not.toMatch(/Worse than the rest[^.]*Samphire Matt/);
  });

  test('is, once there are five of them', async () => {
    for (const firing of ['H1', 'H2'])
      await studio.tell(
        ...fire({
          firing,
          day: '2026-03-01',
          lots: [{ count: 20, seconds: 18, glazes: { outside: 'samphire-matt' } }],
        }),
      );
    expect((await rates('by-glaze')).sentence).toMatch(
      /Worse than the rest, beyond chance: Samphire Matt \(90 of 100;/,
    );
  });
});

describe('every number', () => {
  beforeAll(async () => {
    studio = await studioHost();
    await studio.tell(
      ...stores,
      ...fire({
        firing: 'G1',
        day: '2026-02-01',
        lots: [
          {
            count: 16,
            seconds: 6,
            wasters: 1,
            glazes: { outside: 'cuttle-white > marram-green' },
            coats: 2,
            method: 'brushed',
            shelf: 1,
            fault: 'pinholes',
            faulty: 4,
          },
          { count: 12, seconds: 1, glazes: { outside: 'cuttle-white' }, clay: 'otterfold-buff', shelf: 2 },
        ],
      }),
      ...fire({
        firing: 'G2',
        day: '2026-02-08',
        schedule: 'glaze-6-soak',
        bisque: 'daytime-bisque-06',
        kiln: 'little-square',
        lots: [{ count: 15, seconds: 2, shelf: 1 }],
      }),
    );
  });
  afterAll(() => studio.close());

  const countBehind = async (address: unknown) => {
    const { pathname, searchParams } = new URL(String(address), 'http://127.0.0.1');
    expect(pathname).toBe('/review/defect-rates/pieces');
    const { rows } = await rates('pieces', Object.fromEntries(searchParams));
    return rows.reduce((sum, r) => sum + Number(r.count), 0);
  };

  test.each([
    ['by-glaze', {}],
    ['by-clay', {}],
    ['by-schedule', {}],
    ['by-schedule', { role: 'bisque' }],
    ['by-kiln', {}],
    ['by-kiln', { role: 'bisque' }],
    ['by-shelf', {}],
    ['by-coats', {}],
    ['by-method', {}],
    ['by-layers', {}],
    ['glaze-on-clay', {}],
    ['glaze-on-schedule', {}],
    ['glaze-on-schedule', { role: 'bisque' }],
    ['by-glaze', { outcome: 'wasters' }],
    ['by-glaze', { outcome: 'pinholes', from: '2026-02-01', to: '2026-02-02' }],
  ] as [string, Record<string, string>][])(
    'of %s %o leads to the pieces behind it',
    async (report, params) => {
      const { rows } = await rates(report, params);
      expect(rows.length).toBeGreaterThan(0);
      for (const { key, pieces, affected, piecesBehind, affectedBehind } of rows) {
        expect(await countBehind(piecesBehind), String(key)).toBe(pieces);
        expect(await countBehind(affectedBehind), String(key)).toBe(affected);
      }
    },
  );

  test('keeps up with a grade that comes in after it was asked', async () => {
    const marram = async () => row(await rates('by-glaze'), 'Marram Green');
    expect(await marram()).toMatchObject({ pieces: 31, affected: 9 });
    await studio.tell(...fire({ firing: 'G3', day: '2026-02-20', lots: [{ count: 4, seconds: 1 }] }));
    expect(await marram()).toMatchObject({ pieces: 35, affected: 10 });
    await studio.tell(...fire({ firing: 'G4', day: '2026-04-20', lots: [{ count: 2 }] }));
    expect(await marram()).toMatchObject({ pieces: 37, affected: 10, firings: 4 });
  });
});

describe('a jug fired twice', () => {
  const again = (firing: string, day: string) => [
    done(day, 'firing.pack', {
      firing,
      label: firing,
      kiln: 'big-round',
      schedule: 'glaze-6-soak',
      role: 'glaze',
      places: [{ piece: lotId('G1', 0) }],
    }),
    done(day, 'firing.light', { firing }),
    done(day, 'firing.end', { firing }),
    done(day, 'firing.draw', { firing }),
  ];

  test('counts by its first firing, and by both when all are asked for', async () => {
    studio = await studioHost();
    await studio.tell(
      ...stores,
      ...fire({ firing: 'G1', day: '2026-02-01', lots: [{ count: 1, seconds: 1, fault: 'pinholes' }] }),
      done('2026-02-03', 'repair.do', { piece: lotId('G1', 0), method: 'refire' }),
      ...again('G2', '2026-02-04'),
      done('2026-02-05', 'piece.grade', { piece: lotId('G1', 0), first: 1 }),
    );
    expect((await rates('by-schedule')).rows).toMatchObject([
      { key: 'Glaze 6 Plain', pieces: 1, affected: 1 },
    ]);
    const all = await rates('by-schedule', { firing: 'all' });
    expect(row(all, 'Glaze 6 Soak')).toMatchObject({ pieces: 1, affected: 0 });
    expect(row(all, 'Glaze 6 Plain')).toMatchObject({ pieces: 1, affected: 1 });
    expect((await rates('by-schedule', { outcome: 'pinholes', firing: 'all' })).rows).toMatchObject([
      { key: 'Glaze 6 Plain', affected: 1 },
      { key: 'Glaze 6 Soak', affected: 0 },
    ]);
    await studio.close();
  });

  test('found faulty and mended before it was graded is a second of the first firing, and that is said', async () => {
    studio = await studioHost();
    await studio.tell(
      ...stores,
      ...fire({
        firing: 'G1',
        day: '2026-02-01',
        lots: [{ count: 1, waits: true, fault: 'pinholes', faulty: 1 }],
      }),
      done('2026-02-03', 'repair.do', { piece: lotId('G1', 0), method: 'refire', fault: 'pinholes' }),
      ...again('G2', '2026-02-04'),
      done('2026-02-05', 'piece.grade', { piece: lotId('G1', 0), first: 1 }),
    );
    const answer = await rates('by-schedule');
    expect(answer.rows).toMatchObject([{ key: 'Glaze 6 Plain', affected: 1 }]);
    expect(answer.notes.join(' ')).toMatch(/1 piece was found faulty and fired again before being graded/);
    await studio.close();
  });

  test('is not judged by its first firing where nothing was looked over then', async () => {
    studio = await studioHost();
    await studio.tell(
      ...stores,
      ...fire({ firing: 'G1', day: '2026-02-01', lots: [{ count: 1, waits: true }] }),
      done('2026-02-03', 'glaze.apply', {
        piece: lotId('G1', 0),
        zone: 'rim',
        layers: [{ glaze: 'cuttle-white', coats: 1 }],
      }),
      ...again('G2', '2026-02-04'),
      done('2026-02-05', 'piece.grade', { piece: lotId('G1', 0), second: 1 }),
    );
    expect((await rates('by-schedule')).rows).toMatchObject([{ key: 'Glaze 6 Soak', affected: 1 }]);
    await studio.close();
  });

  test('is graded anew after grinding, and its first grade is what the firing gave', async () => {
    studio = await studioHost();
    await studio.tell(
      ...stores,
      ...fire({ firing: 'G1', day: '2026-02-01', lots: [{ count: 1, seconds: 1, fault: 'runs' }] }),
      done('2026-02-03', 'repair.do', { piece: lotId('G1', 0), method: 'grind' }),
      done('2026-02-05', 'piece.grade', { piece: lotId('G1', 0), first: 1 }),
    );
    expect((await rates('by-glaze')).rows).toMatchObject([{ key: 'Marram Green', affected: 1, pieces: 1 }]);
    await studio.close();
  });
});
