/** The year on a page, beside figures worked out by hand. */
import { afterEach, describe, expect, test } from 'vitest';
import type { Answer } from '../../../server/contract/figures.ts';
import { answerCsv } from '../../../server/http/csv.ts';
import { done, type Happening } from '../../support/given.ts';
import { type StudioHost, studioHost } from '../../support/studio-host.ts';
import { fire, type LotIn, lotId, storesOn } from '../defect-rates/load.ts';

let studio: StudioHost;
afterEach(() => studio.close());

const STORES = storesOn('2023-01-01');
const opened = async (...happenings: readonly Happening[]) => {
  studio = await studioHost();
  await studio.tell(...STORES, ...happenings);
};
const settings = (yearStart: string) =>
  done('2023-01-01', 'studio.set', {
    studio: 'Hollin Yard Pottery',
    zone: 'Europe/London',
    currency: 'GBP',
    yearStart,
  });
const year = (params: Record<string, string> = {}) => studio.host.report('seconds-tally', 'year', params);
const rows = (answer: Answer, kind: string) => answer.rows.filter((row) => row.kind === kind);
const row = (answer: Answer, kind: string, label: string) =>
  rows(answer, kind).find((each) => each.label === label)!;
const more = (answer: Answer) =>
  answer.more as {
    year: { name: string; from: string; to: string; until: string; over: boolean };
    before: { from: string; to: string };
    years: { name: string }[];
    advice: string[];
  };

/** A firing on the second of each of six months. */
const sixFirings = (of: number, lot: LotIn) =>
  [1, 2, 3, 4, 5, 6].flatMap((month) =>
    fire({ firing: `G${of}-${month}`, day: `${of}-0${month}-02`, lots: [lot] }),
  );
const fewer = [
  ...sixFirings(2025, { count: 20, seconds: 6, fault: 'pinholes' }),
  ...sixFirings(2026, { count: 20, seconds: 1, fault: 'pinholes' }),
];

describe('the year on a page', () => {
  test('counts firsts, seconds and wasters of the year and of the same days before, and leads to the pieces', async () => {
    await opened(
      ...fire({ firing: 'A', day: '2026-03-02', lots: [{ count: 12, seconds: 3, wasters: 1 }] }),
      ...fire({ firing: 'B', day: '2025-03-02', lots: [{ count: 10, seconds: 2 }] }),
      // Not until today's day last year.
      ...fire({ firing: 'C', day: '2025-09-02', lots: [{ count: 50, wasters: 50 }] }),
    );
    const answer = await year();
    expect(answer.sentence).toMatch(
      /^2026 so far, until 30 June 2026: 8 firsts, 3 seconds and 1 waster of 12 graded pieces \(33 % seconds and wasters\)\./,
    );
    expect(rows(answer, 'grade')).toMatchObject([
      { key: 'firsts', pieces: 8, piecesBefore: 8, shareBefore: 0.8 },
      { key: 'seconds', pieces: 3, share: 0.25, piecesBefore: 2 },
      { key: 'wasters', pieces: 1, piecesBefore: 0 },
    ]);
    expect(more(answer)).toMatchObject({
      year: { name: '2026', from: '2026-01-01', to: '2026-12-31', until: '2026-06-30', over: false },
      before: { from: '2025-01-01', to: '2025-06-30' },
    });
    const link = new URL(String(row(answer, 'grade', 'Seconds').piecesBehind), 'http://127.0.0.1');
    const behind = await studio.host.report('seconds-tally', 'pieces', Object.fromEntries(link.searchParams));
    expect(behind.rows.reduce((sum, each) => sum + Number(each.count), 0)).toBe(3);
  });

  test('stands beside the whole year before once it is over', async () => {
    await opened(...fewer);
    const answer = await year({ from: '2025-01-01', to: '2025-12-31' });
    expect(answer.sentence).toMatch(/^2025: 84 firsts, 36 seconds and 0 wasters/);
    expect(answer.sentence).toContain('Nothing is on record for the year before.');
    expect(more(answer)).toMatchObject({ before: { from: '2024-01-01', to: '2024-12-31' } });
    expect(more(answer).years.map(({ name }) => name)).toEqual(['2026', '2025']);
  });

  test('never adds up money of two currencies, and says where a price is missing', async () => {
    await opened(
      ...fire({
        firing: 'A',
        day: '2026-03-02',
        lots: [
          { count: 5, seconds: 2, wasters: 1, prices: [2000, 1500] },
          { count: 4, seconds: 1, prices: [3000, 1000], currency: 'EUR' },
          { count: 3, seconds: 3 },
        ],
      }),
    );
    const answer = await year();
    expect(rows(answer, 'lost')).toMatchObject([
      { key: 'GBP', lost: 2 * 500 + 2000, currency: 'GBP' },
      { key: 'EUR', lost: 2000, currency: 'EUR' },
    ]);
    expect(answer.notes.join(' ')).toContain('3 seconds or wasters have no price noted');
  });

  test('says by how much the year differs: 6 of 120 against 36 of 120, Newcombe’s limits where firings do not differ', async () => {
    await opened(...fewer);
    const answer = await year();
    const all = row(answer, 'change', 'all ware');
    // Wilson: 0.0231 to 0.1048 and 0.2253 to 0.3872; their distances squared and added (worked by hand).
    expect(all).toMatchObject({ seconds: 6, pieces: 120, secondsBefore: 36, firings: 6, beyondChance: true });
    expect(all.difference).toBeCloseTo(-0.25, 12);
    expect(all.low).toBeCloseTo(-0.3412, 4);
    expect(all.high).toBeCloseTo(-0.1573, 4);
    expect(answer.sentence).toContain(
      'Before any mending it was 5 %, against 30 % in the same days of the year before: fewer, beyond chance.',
    );
    expect(row(answer, 'change', 'pinholes')).toMatchObject({ seconds: 6, secondsBefore: 36, pieces: 120 });
  });

  test('does not take a mended second of last year for a better year', async () => {
    const lot = { count: 20, seconds: 4, fault: 'pinholes' };
    const mended = [1, 2, 3, 4, 5, 6].flatMap((month) => [
      done(`2025-0${month}-20`, 'repair.do', {
        piece: `${lotId(`G2025-${month}`, 0)}.2`,
        method: 'grind',
        fault: 'pinholes',
      }),
      done(`2025-0${month}-21`, 'piece.grade', { piece: `${lotId(`G2025-${month}`, 0)}.2`, first: 4 }),
    ]);
    await opened(...sixFirings(2025, lot), ...sixFirings(2026, lot));
    const second = (await studio.host.report('seconds-tally', 'pieces', { by: 'all', grade: 'second' })).rows;
    const parts = second.map((each) => String(each.piece)).filter((piece) => piece.includes('g2025'));
    expect(parts).toHaveLength(6);
    await studio.tell(
      ...mended.map((happening, n) => {
        if (!('command' in happening)) throw new Error('a command');
        const input = { ...(happening.input as object), piece: parts.toSorted()[Math.floor(n / 2)] };
        return done(happening.on, happening.command, input);
      }),
    );
    const answer = await year();
    expect(row(answer, 'grade', 'Seconds')).toMatchObject({ pieces: 24, piecesBefore: 0 });
    expect(row(answer, 'change', 'all ware')).toMatchObject({
      seconds: 24,
      secondsBefore: 24,
      beyondChance: false,
    });
    expect(answer.sentence).toContain('which can’t be told apart from chance');
    expect(rows(await year({ from: '2025-01-01', to: '2025-12-31' }), 'repair')).toMatchObject([
      { fault: 'pinholes', repair: 'grind', tried: 24, worked: 24, rate: 1 },
    ]);
  });

  test('calls nothing different on the word of a few firings', async () => {
    await opened(
      ...fire({ firing: 'A', day: '2026-03-02', lots: [{ count: 40, seconds: 20 }] }),
      ...fire({ firing: 'B', day: '2026-04-02', lots: [{ count: 40, seconds: 20 }] }),
      ...fire({ firing: 'C', day: '2025-03-02', lots: [{ count: 40 }] }),
      ...fire({ firing: 'D', day: '2025-04-02', lots: [{ count: 40 }] }),
    );
    const answer = await year();
    expect(row(answer, 'change', 'all ware')).toMatchObject({ finding: 'few', beyondChance: false });
    expect(answer.sentence).toContain('which few firings can’t tell apart from chance');
  });

  test('does not call a glaze the best for five good tiles', async () => {
    await opened(
      ...[1, 2, 3, 4, 5, 6].flatMap((month) =>
        fire({
          firing: `G${month}`,
          day: `2026-0${month}-02`,
          lots: [
            { count: 40, seconds: 1, glazes: { inside: 'cuttle-white' } },
            { count: 20, seconds: 8, glazes: { outside: 'marram-green' } },
            ...(month === 1 ? [{ count: 5, glazes: { outside: 'samphire-matt' } }] : []),
          ],
        }),
      ),
    );
    const best = rows(await year(), 'best');
    expect(best.map(({ label }) => label)).toEqual(['Cuttle White', 'Samphire Matt', 'Marram Green']);
    expect(best.map(({ verdict }) => verdict)).toEqual([
      'better than the rest, beyond chance',
      'too few to say, from 1 firing',
      'worse than the rest, beyond chance',
    ]);
    // Evened out: nought of five does not mean that it never fails.
    expect(best[1]!.rate).toBe(0);
    expect(Number(best[1]!.even)).toBeGreaterThan(0.02);
    expect(Number(best[1]!.evenHigh)).toBeGreaterThan(Number(best[0]!.evenHigh));
  });
});

describe('the year’s bounds', () => {
  const eve = fire({ firing: 'EVE', day: '2026-04-05', lots: [{ count: 3, seconds: 1 }] });
  const morrow = fire({ firing: 'MORROW', day: '2026-04-06', lots: [{ count: 5, seconds: 2 }] });

  test('are the studio’s own: 5 April is still last year where it starts on the 6th', async () => {
    await opened(settings('04-06'), ...eve, ...morrow);
    const answer = await year();
    expect(more(answer).year).toMatchObject({ name: '2026/27', from: '2026-04-06', to: '2027-04-05' });
    expect(row(answer, 'grade', 'Seconds')).toMatchObject({ pieces: 2, piecesBefore: 0 });
    const last = await year({ to: '2026-04-05' });
    expect(more(last).year).toMatchObject({ name: '2025/26', from: '2025-04-06', over: true });
    expect(row(last, 'grade', 'Seconds').pieces).toBe(1);
  });

  test('of a year from 1 July are known from its first day', async () => {
    await opened(settings('07-01'), ...eve);
    const answer = await year({ from: '2025-07-01' });
    expect(more(answer)).toMatchObject({
      year: { name: '2025/26', to: '2026-06-30', until: '2026-06-30' },
      before: { from: '2024-07-01', to: '2025-06-30' },
    });
  });

  test('take the whole of February in, whichever year is the leap year', async () => {
    await opened(
      settings('03-01'),
      ...fire({ firing: 'LEAP', day: '2024-02-29', lots: [{ count: 7, seconds: 7 }] }),
      ...fire({ firing: 'NEXT', day: '2025-02-28', lots: [{ count: 7 }] }),
    );
    const answer = await year({ from: '2024-03-01', to: '2025-02-28' });
    expect(more(answer).before).toEqual({ from: '2023-03-01', to: '2024-02-29' });
    expect(row(answer, 'grade', 'Seconds')).toMatchObject({ pieces: 0, piecesBefore: 7 });
  });

  test('go by the day of the firing, not of the grade; and by what had happened as at a day', async () => {
    const late = fire({ firing: 'LATE', day: '2025-12-31', lots: [{ count: 4, waits: true }] });
    await opened(
      ...late,
      done('2026-01-03', 'piece.grade', { piece: lotId('LATE', 0), first: 3, second: 1 }),
      ...eve,
    );
    expect(row(await year(), 'grade', 'Seconds').pieces).toBe(1);
    expect(row(await year({ to: '2025-12-31' }), 'grade', 'Seconds').pieces).toBe(1);
    const then = await year({ 'as-at': '2026-01-02' });
    expect(then.sentence).toBe('2026 so far, until 2 January 2026: no graded pieces.');
    expect(then.figures).toEqual([]);
  });

  test('the wrong way about are refused in a sentence', async () => {
    await opened();
    await expect(year({ from: '2026-02-01', to: '2026-01-01' })).rejects.toThrow(
      /a last day that is not before the first/,
    );
  });
});

describe('what to change', () => {
  test('names the glaze that adds seconds of its own, with what is usually tried for its commonest fault', async () => {
    await opened(
      ...[1, 2, 3, 4, 5, 6].flatMap((month) =>
        fire({
          firing: `G${month}`,
          day: `2026-0${month}-02`,
          lots: [
            { count: 15, seconds: 8, glazes: { outside: 'quicksilver-run' }, fault: 'runs' },
            { count: 30, seconds: 1, glazes: { inside: 'cuttle-white' }, fault: 'specks' },
          ],
        }),
      ),
    );
    const answer = await year();
    expect(more(answer).advice[0]).toMatch(
      /^Change how Quicksilver Run is used first: about \d+ of its 48 seconds and wasters are laid at its door\. Its commonest fault is runs \(48\); what is usually tried first: hold the glaze back further from the foot/,
    );
    expect(rows(answer, 'advice').map(({ says }) => says)).toEqual(more(answer).advice);
    expect(rows(answer, 'worst')[0]).toMatchObject({ label: 'Quicksilver Run', seconds: 48 });
  });

  test('is nothing where too little went wrong', async () => {
    await opened(...fire({ firing: 'A', day: '2026-03-02', lots: [{ count: 40, seconds: 2 }] }));
    expect(more(await year()).advice).toEqual([
      'With 2 seconds and wasters of 40 pieces there is nothing to change yet.',
    ]);
  });

  test('is to note the faults, where most are not noted', async () => {
    await opened(
      ...[1, 2, 3, 4, 5, 6].flatMap((month) =>
        fire({
          firing: `G${month}`,
          day: `2026-0${month}-02`,
          lots: ['marram-green', 'cuttle-white'].map((glaze) => ({
            count: 20,
            seconds: 2,
            glazes: { outside: glaze },
          })),
        }),
      ),
    );
    expect(more(await year()).advice).toEqual([
      '24 of 24 seconds and wasters have no fault noted: note the fault and its zone when drawing, and next year’s answer is surer.',
    ]);
  });
});

test('the year as a table file runs nothing when it is opened', async () => {
  const named = '=HYPERLINK("http://127.0.0.1/")';
  await opened(
    done('2026-01-01', 'glaze.add', { name: named }),
    ...fire({
      firing: 'A',
      day: '2026-03-02',
      lots: [{ count: 9, seconds: 5, glazes: { outside: 'hyperlink-http-127-0-0-1' } }],
    }),
  );
  const csv = answerCsv(await year());
  expect(csv).toContain(`"'=HYPERLINK(""http://127.0.0.1/"")"`);
  expect(csv).not.toMatch(/(^|,)"?=/m);
  expect(csv.split('\r\n')[0]).toContain('kind,key,label,pieces,share,piecesBefore,shareBefore');
});
