import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import type { Entry } from '../../server/contract/entry.ts';
import { definePlugin, event } from '../../server/contract/plugin.ts';
import type { Firing, Lot } from '../../server/contract/studio/state.ts';
import { portionIn } from '../../server/contract/studio/values.ts';
import { History } from '../../server/host/history.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { frozenLogs } from '../support/frozen.ts';
import { JUG, TILES } from '../support/yard.ts';

const registry = buildRegistry(PLUGINS);
const logs = frozenLogs();

const stateOf = <State>(entries: readonly Entry[], stream: string): State =>
  new History(
    registry,
    stream,
    entries.filter((entry) => entry.streams.includes(stream)),
  ).latest() as State;

describe.each(logs)('the frozen log $file', ({ entries }) => {
  test('still reads: every entry fits the present shape of its event', () => {
    for (const entry of entries) {
      const brought = registry.bring(entry);
      const known = registry.event(entry.name)!;
      expect(known.it.shape.safeParse(brought.data), `${entry.seq} ${entry.name}`).toMatchObject({
        success: true,
      });
    }
  });

  test('still folds to the studio that it was', () => {
    const tiles = stateOf<Lot>(entries, `piece:${TILES}`);
    expect(tiles.portions.map((p) => [p.count, p.gradings.at(-1)?.grade, p.faults.length])).toEqual([
      [9, 'first', 0],
      [1, 'waster', 1],
      [2, 'second', 1],
    ]);
    const jug = portionIn(stateOf<Lot>(entries, `piece:${JUG}`), JUG)!;
    expect(jug).toMatchObject({
      stage: 'mending',
      count: 1,
      notes: [],
      photos: [{ sha256: 'ab'.repeat(32) }],
    });
    expect(stateOf<Firing>(entries, 'firing:G1')).toMatchObject({
      state: 'drawn',
      readings: [
        [0, 18],
        [60, 120.5],
      ],
    });
  });
});

test('every event that is recorded today is in a frozen log at its present version', () => {
  const frozen = new Set(
    logs.flatMap(({ entries }) => entries.map((entry) => `${entry.name} ${entry.version}`)),
  );
  const today = PLUGINS.flatMap((plugin) =>
    Object.keys(plugin.events ?? {}).map((name) => `${name} ${registry.event(name)!.version}`),
  );
  expect(today.filter((name) => !frozen.has(name))).toEqual([]);
});

describe('an event whose shape has changed twice', () => {
  // Invented: sieves were noted by mesh in inches, then in mm, then with the bucket.
  const sieved = definePlugin({
    id: 'sieving',
    contract: 1,
    about: 'Which sieve a glaze went through.',
    needs: [],
    prefixes: ['sieve'],
    events: {
      'sieve.used': event({
        rank: 1,
        shape: z.strictObject({ opening: z.number(), bucket: z.string() }),
        upcasts: [
          (data) => ({ opening: (data as { inches: number }).inches * 25.4 }),
          (data) => ({ ...(data as { opening: number }), bucket: 'unknown' }),
        ],
      }),
    },
  });
  const sieves = buildRegistry([sieved]);
  const entry = (version: number, data: unknown): Entry => ({
    seq: 1,
    command: '01980000-0000-7000-8000-000000000001',
    part: 0,
    name: 'sieve.used',
    version,
    happenedAt: '2026-05-01',
    recordedAt: '2026-05-01T12:00:00.000Z',
    who: 'ansa',
    device: 'bench',
    streams: ['sieve:1'],
    data,
  });

  test.each([
    [1, { inches: 0.01 }, { opening: 0.254, bucket: 'unknown' }],
    [2, { opening: 0.25 }, { opening: 0.25, bucket: 'unknown' }],
    [3, { opening: 0.2, bucket: 'MG-2' }, { opening: 0.2, bucket: 'MG-2' }],
  ])('is brought up from version %i step by step', (version, data, present) => {
    expect(sieves.bring(entry(version, data)).data).toEqual(present);
  });

  test('is refused where it was written by a newer release', () => {
    expect(() => sieves.bring(entry(4, {}))).toThrow(/version 4.*only up to version 3/);
  });
});
