import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeDemo } from '../../server/demo/fill.ts';
import type { Host } from '../../server/host/host.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { openHost } from '../../server/open-host.ts';

/** Pictures are there for the wall, for a repair, and for every lot of the potter's own that is to be drawn. */
async function seesPictures(host: Host): Promise<void> {
  const wall = await host.report('studio', 'picture-wall', { by: 'glaze' });
  expect(wall.rows.length).toBeGreaterThan(8);
  const { rows } = await host.report('studio', 'today', {});
  const kiln = rows.find((row) => row.does === 'draw')!;
  const load = await host.report('studio', 'firing', { firing: String(kiln.to).split('/')[2]! });
  const own = load.rows.filter((row) => row.owner === 'own');
  expect(own.length).toBeGreaterThan(3);
  expect(own.every((row) => (row.photos as object[]).length > 0)).toBe(true);
  const { rows: all } = await host.report('studio', 'pictures', { limit: '100' });
  const shows = (what: string) => all.filter((row) => row.shows === what).length;
  expect(shows('before')).toBeGreaterThan(1);
  expect(shows('after')).toBe(shows('before'));
  expect(all.filter((row) => row.fault !== null).length).toBeGreaterThan(3);
  expect((await host.verify()).files).toMatchObject({ missing: [], changed: [] });
}

describe('making the demo studio in a folder', () => {
  const PATIENCE = 120_000;

  it('leaves a sound log, recorded over two years, that reports can be asked of', {
    timeout: PATIENCE,
  }, async () => {
    const dir = await mkdtemp(join(tmpdir(), 'wareboard-'));
    const seen: number[] = [];
    await makeDemo(dir, PLUGINS, '2026-05-04', (done, of) => seen.push(done / of));
    const clock = () => new Date('2026-05-04T09:00:00Z');
    const host = await openHost({ dir, plugins: PLUGINS, clock });
    try {
      expect(seen.at(-1)).toBe(1);
      const [first] = await host.log.read(0, 1);
      expect(first!.recordedAt < '2024-05-20').toBe(true);
      const verdict = await host.log.verify();
      expect(verdict.broken).toBeUndefined();
      expect(verdict.entries).toBeGreaterThan(7_000);

      const now = await host.report('studio', 'today', {});
      const waits = now.rows.filter((row) => row.kind === 'firing').map((row) => row.does);
      expect(waits.sort()).toEqual(['draw', 'end', 'light']);
      await seesPictures(host);
      const left = async (params: Record<string, string>) =>
        ((await host.report('studio', 'today', params)).more!.standing as Record<string, number>).left!;
      expect(await left({ 'known-at': '2025-05-04' })).toBeLessThan(0.6 * (await left({})));
    } finally {
      await host.close();
      await rm(dir, { recursive: true, force: true });
    }
  });
});
