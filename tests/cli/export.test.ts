import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import type { Host } from '../../server/host/host.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { openHost } from '../../server/open-host.ts';
import { temporary } from '../support/folder.ts';
import { atTheDesk } from './at-the-desk.ts';

const clock = () => new Date('2026-05-02T09:00:00Z');
let made = 0;
const id = () => `01970000-0000-7000-8000-${String(++made).padStart(12, '0')}`;
let host: Host | undefined;
afterEach(() => host?.close());

async function studio(pieces: number, form = 'beaker') {
  const dir = join(temporary(), 'data');
  host = await openHost({ dir, plugins: PLUGINS, clock });
  const begin = () => ({
    id: id(),
    command: 'piece.begin',
    who: 'maker',
    device: 'here',
    happenedAt: '2026-05-01',
    input: { piece: id(), count: 1, form, owner: { kind: 'own' } },
  });
  const outcomes = await host.recordAll(Array.from({ length: pieces }, begin));
  expect(outcomes.every(({ outcome }) => outcome === 'recorded')).toBe(true);
  await host.close();
  host = undefined;
  return atTheDesk({ dir, plugins: PLUGINS, openHost: (options) => openHost(options) });
}

test('everything that was recorded is written, each entry a line of the log and each piece a line of its list', async () => {
  const { type } = await studio(1_203);
  const into = join(temporary(), 'out');
  const { code, out } = await type('export', into);
  expect(code).toBe(0);
  expect(out).toContain('1203 entries and the lists ware, firings, materials, people');
  expect(readdirSync(into).sort()).toEqual([
    'firings.csv',
    'log.jsonl',
    'materials.csv',
    'people.csv',
    'ware.csv',
  ]);
  const entries = readFileSync(join(into, 'log.jsonl'), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));
  expect(entries.map(({ seq }) => seq)).toEqual(Array.from({ length: 1_203 }, (_, at) => at + 1));
  const lines = readFileSync(join(into, 'ware.csv'), 'utf8').trimEnd().split('\r\n');
  expect(lines).toHaveLength(1_204);
  const pieces = new Set(lines.slice(1).map((line) => line.split(',')[0]));
  expect(pieces.size).toBe(1_203);
});

test('a name that a spreadsheet would run as a formula is made harmless', async () => {
  const { type } = await studio(1, '=1+1');
  const into = join(temporary(), 'out');
  await type('export', into);
  expect(readFileSync(join(into, 'ware.csv'), 'utf8')).toContain(",'=1+1,");
});

test('a folder that is there is not written into', async () => {
  const { type } = atTheDesk();
  const into = temporary();
  expect(await type('export', into)).toMatchObject({
    code: 1,
    err: expect.stringContaining('is there already'),
  });
  expect(existsSync(join(into, 'log.jsonl'))).toBe(false);
});
