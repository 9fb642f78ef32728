import { text } from 'drizzle-orm/sqlite-core';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import type { Entry } from '../../server/contract/entry.ts';
import { definePlugin, event, type Plugin } from '../../server/contract/plugin.ts';
import { facts } from '../../server/contract/tables.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import { studio } from '../../server/studio/studio.ts';
import { stamps } from '../support/stamps.ts';

const plain = event({ rank: 0, shape: z.strictObject({}) });
const made = (more: Partial<Parameters<typeof definePlugin>[0]>): Plugin =>
  definePlugin({
    id: 'made',
    contract: 1,
    about: 'Made for a test.',
    needs: [],
    prefixes: ['made'],
    ...more,
  });
const projection = (of: string, tables: Record<string, ReturnType<typeof facts>>) => ({
  version: 1,
  of,
  tables,
  rows: () => ({}),
});
const rows = facts('made_rows', { name: text('name') });

test('the studio itself is a plugin that passes', () => {
  const registry = buildRegistry([studio, stamps]);
  expect(registry.plugins.map(({ id }) => id)).toEqual(['studio', 'stamps']);
  expect(registry.event('piece.graded')).toMatchObject({ plugin: 'studio', version: 1 });
  expect(registry.command('stamp.cut')).toMatchObject({ plugin: 'stamps' });
  expect(registry.kind('firing')).toMatchObject({ plugin: 'studio' });
});

describe('a bad plugin is refused at boot by its name', () => {
  test.each<[string, Plugin[], RegExp]>([
    [
      'made for another contract',
      [made({ contract: 2 })],
      /“made” was made for version 2 of the plugin contract; this Wareboard has version 1/,
    ],
    ['the same one twice', [made({}), made({ prefixes: ['other'] })], /“made” is there twice/],
    ['with an id that is no word', [made({ id: 'Made Up' })], /“Made Up” needs an id of lower-case words/],
    [
      'with another one’s prefix',
      [stamps, made({ prefixes: ['stamp'] })],
      /“made” declares the prefix “stamp”, which belongs to “stamps”/,
    ],
    [
      'with the host’s prefix',
      [made({ prefixes: ['entry'] })],
      /the prefix “entry”, which belongs to “host”/,
    ],
    ['with a prefix given twice', [made({ prefixes: ['made', 'made'] })], /the prefix “made” twice/],
    [
      'with an event under no prefix of its own',
      [made({ events: { 'stamp.lost': plain } })],
      /names “stamp.lost” without declaring the prefix “stamp”/,
    ],
    [
      'with a name that is not prefix.what',
      [made({ events: { 'made.very.well': plain } })],
      /“made.very.well”, which is not of the form prefix.what/,
    ],
    [
      'without a shape',
      [made({ events: { 'made.it': { rank: 0 } as never } })],
      /gives no shape for made.it/,
    ],
    [
      'without a rank',
      [made({ events: { 'made.it': { shape: z.strictObject({}) } as never } })],
      /gives no rank within the day for made.it/,
    ],
    [
      'with a hole in its upcasts',
      [made({ events: { 'made.it': { ...plain, upcasts: [(old) => old, undefined as never] } } })],
      /has no upcast of made.it from version 2 to 3/,
    ],
    [
      'with another one’s kind of stream',
      [stamps, made({ streams: stamps.streams })],
      /the stream kind “stamp”, which belongs to “stamps”/,
    ],
    ['that needs one that is not there', [made({ needs: ['stamps'] })], /needs “stamps”, which is not there/],
    [
      'that is listed before what it needs',
      [made({ needs: ['stamps'] }), stamps],
      /“made” needs “stamps”, which must be listed before it/,
    ],
    ['that needs itself', [made({ needs: ['made'] })], /needs “made”, which is not there/],
    [
      'that reads streams of one it does not need',
      [stamps, made({ projections: { list: projection('stamp', { made_rows: rows }) } })],
      /has a projection “list” of “stamp”, a kind of stream that neither it nor a plugin it needs declares/,
    ],
    [
      'with one table in two projections',
      [
        stamps,
        made({
          needs: ['stamps'],
          projections: {
            one: projection('stamp', { made_rows: rows }),
            two: projection('stamp', { made_rows: rows }),
          },
        }),
      ],
      /“two” with the table “made_rows”, which another of its projections has/,
    ],
  ])('%s', (_, plugins, sentence) => {
    expect(() => buildRegistry(plugins)).toThrow(sentence);
  });
});

test('after boot nothing can be added or changed', () => {
  const registry = buildRegistry([made({ events: { 'made.it': plain } })]);
  const [plugin] = registry.plugins;
  expect(() => (registry.plugins as Plugin[]).push(stamps)).toThrow(TypeError);
  expect(() => Object.assign(plugin!, { id: 'other' })).toThrow(TypeError);
  expect(() => Object.assign(plugin!.events!, { 'made.more': plain })).toThrow(TypeError);
  expect(() => Object.assign(plugin!.events!['made.it']!, { rank: 9 })).toThrow(TypeError);
  expect(() => Object.assign(registry, { bring: undefined })).toThrow(TypeError);
});

describe('an entry of an older release', () => {
  const registry = buildRegistry([stamps]);
  const entry = (version: number, data: unknown, name = 'stamp.cut'): Entry => ({
    seq: 7,
    command: 'c',
    part: 0,
    name,
    version,
    happenedAt: '2026-05-01',
    recordedAt: '2026-05-01T09:00:00.000Z',
    who: 'ansa',
    device: 'bench',
    streams: ['stamp:fern'],
    data,
  });

  test('is brought up to the present shape', () => {
    expect(registry.bring(entry(1, { stamp: 'fern', name: 'Fern' }))).toMatchObject({
      version: 2,
      data: { stamp: 'fern', label: 'Fern' },
    });
  });

  test('that its upcasts do not bring up is named, with the plugin', () => {
    expect(() => registry.bring(entry(1, { stamp: 'fern' }))).toThrow(
      /“stamps”: the upcasts of stamp.cut do not bring entry 7 from version 1 .*label/,
    );
  });

  test('that a newer release wrote is refused rather than misread', () => {
    expect(() => registry.bring(entry(3, {}))).toThrow(
      /Entry 7 \(stamp.cut\) is of version 3, but plugin “stamps” knows it only up to version 2/,
    );
  });

  test('of a plugin that was taken out is kept as it is, and said to be unknown', () => {
    const old = entry(4, { anything: true }, 'shelf.built');
    expect(registry.unknown('shelf.built')).toBe(true);
    expect(registry.unknown('stamp.cut')).toBe(false);
    expect(registry.unknown('entry.struck')).toBe(false);
    expect(registry.bring(old)).toBe(old);
    expect(registry.rank(old)).toBeUndefined();
  });
});
