/** The demo's known truth, as the rates tell it. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeDemo } from '../../server/demo/fill.ts';
import type { Host } from '../../server/host/host.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { openHost } from '../../server/open-host.ts';

let dir: string;
let host: Host;
const rates = (report: string, params: Record<string, string> = {}) =>
  host.report('defect-rates', report, params);

describe('the demo’s truth', () => {
  beforeAll(async () => {
    dir = await mkdtemp(join(tmpdir(), 'wareboard-'));
    await makeDemo(dir, PLUGINS, '2026-05-04', () => {});
    host = await openHost({ dir, plugins: PLUGINS, clock: () => new Date('2026-05-04T12:00:00.000Z') });
  }, 120_000);
  afterAll(async () => {
    await host.close();
    await rm(dir, { recursive: true, force: true });
  });

  test('is found: Quicksilver Run is the worst, and the only one that is worse beyond chance', async () => {
    const answer = await rates('by-glaze');
    expect(answer.rows[0]!.key).toBe('Quicksilver Run');
    expect(answer.sentence).toMatch(/Worse than the rest, beyond chance: Quicksilver Run \([^)]*\)\.$/);
    const { sentence } = await rates('glaze-within-schedule', { glaze: 'Quicksilver Run', role: 'bisque' });
    expect(sentence).toMatch(
      /^Quicksilver Run .* is worse than other ware, the schedule and clay allowed for/,
    );
  });

  test('is found: Samphire Matt is cleared once the bisque schedule is allowed for', async () => {
    const { sentence } = await rates('glaze-within-schedule', { glaze: 'Samphire Matt', role: 'bisque' });
    expect(sentence).toMatch(
      /^Samphire Matt looks bad .*, but only on Daytime Bisque 06 .*; on Overnight Bisque 06 it is as good as the rest/,
    );
    const schedules = await rates('by-schedule', { role: 'bisque' });
    expect(schedules.sentence).toMatch(/Worse than the rest, beyond chance: Daytime Bisque 06/);
  });

  test('is found: Confetti Speckle was on too few pieces to say', async () => {
    const { sentence } = await rates('glaze-within-schedule', { glaze: 'Confetti Speckle', role: 'bisque' });
    expect(sentence).toMatch(/^Confetti Speckle .* was in few firings \(\d\): too few to say/);
    const row = (await rates('by-glaze')).rows.find((r) => r.key === 'Confetti Speckle')!;
    expect(row.clusterQ as number).toBeGreaterThan(0.05);
    // Evened out it lies nearer to the other glazes than its own rate does.
    expect(row.even as number).toBeLessThan(row.rate as number);
  });

  const suspects = async (fault: string) => {
    const answer = await rates('fault-guide', { fault });
    const found = new Map(
      answer.rows.filter(({ kind }) => kind === 'suspect').map((row) => [row.label, row.finding]),
    );
    return { sentence: answer.sentence, found };
  };

  test('is found by the guide to pinholes: Quicksilver Run and the quick bisque, and Samphire Matt for its bisque only', async () => {
    const { sentence, found } = await suspects('pinholes');
    expect(sentence).toMatch(
      /suspects first: (Quicksilver Run|Daytime Bisque 06) .* and (Quicksilver Run|Daytime Bisque 06) /,
    );
    expect(found.get('Quicksilver Run')).toBe('holds');
    expect(found.get('Daytime Bisque 06')).toBe('holds');
    expect(found.get('Samphire Matt')).toBe('not-allowed-for');
    expect(['few', undefined]).toContain(found.get('Confetti Speckle'));
  });

  test('is found by the guide to runs, which only Quicksilver Run gives', async () => {
    const { found } = await suspects('runs');
    expect([...found].filter(([, finding]) => finding === 'holds')).toEqual([['Quicksilver Run', 'holds']]);
  });

  test('is not overstated by the guide to stilt marks: earthenware’s clay, kiln and schedule were never apart', async () => {
    const { sentence, found } = await suspects('stilt-marks');
    expect(sentence).toContain('the record cannot tell which of them does it');
    expect([...found.values()]).not.toContain('holds');
  });
});
