/** What is true in the demo is known (server/demo/truth.ts): the year on a page must not contradict it. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Answer } from '../../server/contract/figures.ts';
import { fillDemo } from '../../server/demo/fill.ts';
import { type StudioHost, studioHost } from '../support/studio-host.ts';

describe('the year of the demo', () => {
  let studio: StudioHost;
  let answer: Answer;
  beforeAll(async () => {
    studio = await studioHost({ clock: () => new Date('2026-05-04T09:00:00Z') });
    await fillDemo(studio.host, '2026-05-04');
    answer = await studio.host.report('seconds-tally', 'year', { from: '2025-05-04', to: '2026-05-03' });
  }, 120_000);
  afterAll(() => studio.close());

  const rows = (kind: string) => answer.rows.filter((row) => row.kind === kind);
  const row = (kind: string, label: string) => rows(kind).find((each) => each.label === label)!;

  test('names Quicksilver Run as the worst, and says to change how it is used', () => {
    expect(answer.sentence).toContain('Quicksilver Run caused the most');
    expect(rows('worst')[0]).toMatchObject({ label: 'Quicksilver Run', verdict: 'adds seconds of its own' });
    expect(rows('advice')[0]!.says).toMatch(/^Change how Quicksilver Run is used first/);
  });

  test('lays no seconds of its own at Samphire Matt, and asks for no change to it', () => {
    expect(row('worst', 'Samphire Matt').verdict).not.toBe('adds seconds of its own');
    expect(
      rows('advice')
        .map(({ says }) => says)
        .join(' '),
    ).not.toContain('Samphire Matt');
    expect(rows('advice')[1]!.says).toMatch(
      /^Daytime Bisque 06 \(bisque schedule\) adds seconds of its own too/,
    );
  });

  test('says of Confetti Speckle that it is on too few pieces', () => {
    expect(row('best', 'Confetti Speckle').verdict).toMatch(/^too few to say/);
    expect(row('change', 'Confetti Speckle')?.beyondChance ?? false).toBe(false);
  });

  test('finds that nothing but chance changed: both years are drawn from the same chances', () => {
    expect(row('change', 'all ware').beyondChance).toBe(false);
    const different = rows('change').filter(({ beyondChance }) => beyondChance);
    // One in twenty of those called different may be so by chance.
    expect(different.length).toBeLessThanOrEqual(1);
    expect(rows('change').length).toBeGreaterThan(20);
  });
});
