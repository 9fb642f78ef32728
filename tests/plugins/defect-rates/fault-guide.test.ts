/** The fault guide: the studio's own record before the books. */
import { afterEach, describe, expect, test } from 'vitest';
import type { Answer } from '../../../server/contract/figures.ts';
import { TEXTBOOK, textbookOf } from '../../../server/contract/textbook.ts';
import { FAULTS } from '../../../server/contract/trade.ts';
import { done, type Happening } from '../../support/given.ts';
import { type StudioHost, studioHost } from '../../support/studio-host.ts';
import { dayNumber, fire, type Load, lotId, stores } from './load.ts';

let studio: StudioHost | undefined;
afterEach(async () => {
  await studio?.close();
  studio = undefined;
});
const opened = async (...happenings: readonly Happening[]) => {
  studio = await studioHost();
  await studio.tell(...stores, ...happenings);
};
const guide = (params: Record<string, string> = {}) =>
  studio!.host.report('defect-rates', 'fault-guide', params);
const rows = (answer: Answer, kind: string) => answer.rows.filter((row) => row.kind === kind);
const suspect = (answer: Answer, label: string) => rows(answer, 'suspect').find((row) => row.label === label);

/** Ten firings; what is in each is told by its number. */
const ten = (lots: (n: number) => Omit<Load, 'firing' | 'day'>) =>
  Array.from({ length: 10 }, (_, n) => fire({ firing: `G${n}`, day: dayNumber(7 * n), ...lots(n) })).flat();

/** The quick bisque gives pinholes; Samphire Matt is nearly always on ware that had it. */
const confounded = ten((n) => {
  const quick = n % 2 === 0;
  const [samphire, marram] = quick ? [16, 4] : [4, 16];
  const lot = (glaze: string, count: number) => ({
    count,
    seconds: quick ? count / 2 : 0,
    fault: 'pinholes',
    glazes: { outside: glaze },
  });
  return {
    bisque: quick ? 'daytime-bisque-06' : 'overnight-bisque-06',
    lots: [lot('samphire-matt', samphire), lot('marram-green', marram)],
  };
});

describe('the guide to a fault', () => {
  test('suspects the bisque that gives it, and not the glaze that was mostly on that bisque', async () => {
    await opened(...confounded);
    const answer = await guide({ fault: 'pinholes' });
    // 5 firings of 20, half of each with pinholes: 50 of 100 on the quick bisque, of which 40 are Samphire Matt.
    expect(suspect(answer, 'Daytime Bisque 06')).toMatchObject({
      what: 'bisque schedule',
      affected: 50,
      pieces: 100,
      finding: 'holds',
    });
    expect(suspect(answer, 'Samphire Matt')).toMatchObject({ affected: 40, pieces: 100 });
    expect(suspect(answer, 'Samphire Matt')!.finding).not.toBe('holds');
    expect(answer.sentence).toMatch(
      /^Pinholes: on 50 of 200 inspected pieces \(25 %\)\. This studio’s record suspects first: Daytime Bisque 06 \(bisque schedule; 50 of 100; /,
    );
    expect(answer.sentence).not.toContain('Samphire Matt');
  });

  test('leads from a suspect to where it can be looked into, for the same fault', async () => {
    await opened(...confounded);
    const link = new URL(
      String(suspect(await guide({ fault: 'pinholes' }), 'Samphire Matt')!.labelBehind),
      'http://127.0.0.1',
    );
    expect(link.pathname).toBe('/review/defect-rates/glaze-within-schedule');
    const further = await studio!.host.report(
      'defect-rates',
      'glaze-within-schedule',
      Object.fromEntries(link.searchParams),
    );
    expect(further.sentence).toMatch(/^Samphire Matt /);
    expect(further.rows.find((row) => row.kind === 'adjusted')).toMatchObject({ affected: 40, pieces: 100 });
  });

  test('suspects nothing on the word of a few pieces, or of a few firings', async () => {
    await opened(
      ...fire({ firing: 'A', day: '2026-02-01', lots: [{ count: 9, seconds: 4, fault: 'blisters' }] }),
      ...fire({ firing: 'B', day: '2026-02-08', lots: [{ count: 30, glazes: { outside: 'cuttle-white' } }] }),
    );
    const answer = await guide({ fault: 'blisters' });
    expect(answer.sentence).toBe(
      'Blisters: on 4 of 39 inspected pieces (10 %). Too few to suspect anything by the record. 4 of them came out of one firing, A: look there first.',
    );
    expect(suspect(answer, 'Marram Green')).toMatchObject({
      finding: 'few',
      verdict: 'too few to say, from 1 firing',
    });
  });

  test('does not look at glazes for a crack: that comes from clay, drying and fire', async () => {
    await opened(
      ...ten(() => ({
        lots: [
          {
            count: 10,
            wasters: 5,
            fault: 'crack',
            glazes: { outside: 'marram-green' },
            clay: 'otterfold-buff',
          },
          { count: 10, glazes: { outside: 'cuttle-white' }, clay: 'fell-white' },
        ],
      })),
    );
    const answer = await guide({ fault: 'crack' });
    expect(suspect(answer, 'Marram Green')).toBeUndefined();
    expect(suspect(answer, 'Otterfold Buff')).toMatchObject({ affected: 50, pieces: 100 });
    expect(answer.notes.join(' ')).toContain('what was lost in drying or in the bisque is not');
  });

  test('tells how repairs for it have gone here, and for nothing else', async () => {
    await opened(
      ...fire({ firing: 'A', day: '2026-02-01', lots: [{ count: 1, seconds: 1, fault: 'runs' }] }),
      done('2026-02-10', 'repair.do', { piece: lotId('A', 0), method: 'grind', fault: 'runs' }),
      done('2026-02-11', 'piece.grade', { piece: lotId('A', 0), first: 1 }),
    );
    expect(rows(await guide({ fault: 'runs' }), 'repair')).toMatchObject([
      { fault: 'runs', repair: 'grind', tried: 1, worked: 1 },
    ]);
    expect(rows(await guide({ fault: 'pinholes' }), 'repair')).toEqual([]);
  });

  test('of a studio’s own fault has all that the record says, and how to find out', async () => {
    await opened(
      done('2026-01-01', 'word.add', { kind: 'fault', name: 'Milky bloom' }),
      ...fire({ firing: 'A', day: '2026-02-01', lots: [{ count: 8, seconds: 6, fault: 'milky-bloom' }] }),
    );
    const answer = await guide({ fault: 'milky-bloom' });
    expect(answer.sentence).toMatch(/^Milky bloom: on 6 of 8 inspected pieces/);
    expect(rows(answer, 'try').map(({ label }) => label)).toEqual(
      textbookOf('other').tries.map(({ text }) => text),
    );
    const all = await guide();
    expect(all.sentence).toBe('The commonest fault is milky bloom: on 6 of 8 inspected pieces.');
    expect(rows(all, 'fault')).toHaveLength(FAULTS.length + 1);
  });

  test('says what the books know where the record has nothing', async () => {
    await opened();
    const answer = await guide({ fault: 'shivering' });
    expect(answer.sentence).toBe(
      'Shivering: not found on any of 0 inspected pieces; only the books can say.',
    );
    expect(rows(answer, 'book').length).toBeGreaterThan(0);
    expect(rows(answer, 'caution').length).toBeGreaterThan(0);
    expect(answer.notes.at(-1)).toMatch(/^The books: F\. Hamer .* H\. Fraser, .* D\. Rhodes, /);
  });
});

describe('the books', () => {
  test.each(FAULTS)('know of %s what is seen, suspected and tried', (fault) => {
    const { seen, suspects, tries } = TEXTBOOK[fault];
    expect(seen).toMatch(/^[A-Z].*\.$/);
    expect(suspects.length).toBeGreaterThan(0);
    expect(tries.length).toBeGreaterThan(0);
    for (const { text } of [...suspects, ...tries]) expect(text).toMatch(/^[A-Z].*[^.]$/);
  });

  test('promise nobody that ware can be eaten from or a kiln opened', () => {
    expect(JSON.stringify(TEXTBOOK)).not.toMatch(/safe/i);
  });

  test('warn of splinters wherever ware is sharp, and of dust wherever it is ground', () => {
    for (const fault of ['shivering', 'stilt-marks', 'runs', 'stuck', 'broken'] as const)
      expect(TEXTBOOK[fault].cautions.join(' '), fault).toContain('splinters');
    for (const { tries, cautions } of Object.values(TEXTBOOK))
      if (tries.some(({ text }) => /grind/i.test(text))) expect(cautions.join(' ')).toContain('respirator');
  });
});
