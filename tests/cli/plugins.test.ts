import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { startVitest } from 'vitest/node';
import { loadPlugins } from '../../server/cli/plugin-folder.ts';
import type { Plugin } from '../../server/contract/plugin.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { openHost } from '../../server/open-host.ts';
import { temporary } from '../support/folder.ts';
import { atTheDesk } from './at-the-desk.ts';

/** Inside the checkout, where the packages that a plugin imports are found. */
const nearby = mkdtempSync(join(fileURLToPath(new URL('../../', import.meta.url)), 'dist-plugins-'));
afterAll(() => rmSync(nearby, { recursive: true, force: true }));

const written = (index: string, file = 'index.mjs') => {
  const folder = temporary();
  mkdirSync(join(folder, 'kiln-log'));
  writeFileSync(join(folder, 'kiln-log', file), index);
  return folder;
};

test('a new plugin works as it is written: it is loaded, it counts, and its own test passes', async () => {
  const { type } = atTheDesk();
  const { code, out } = await type('new', 'plugin', 'kiln-log', '--plugins', nearby);
  expect(code).toBe(0);
  expect(out).toContain('README.md, index.ts, projections.ts, reports.ts, kiln-log.test.ts');
  const plugins = await loadPlugins(nearby);
  expect(plugins.map(({ id }) => id)).toEqual(['kiln-log']);
  const host = await openHost({
    dir: temporary(),
    plugins: [...PLUGINS, ...plugins],
    clock: () => new Date('2026-05-02T09:00:00Z'),
  });
  const piece = '01970000-0000-7000-8000-0000000000aa';
  const order = {
    id: '01970000-0000-7000-8000-000000000001',
    command: 'piece.begin',
    who: 'maker',
    device: 'here',
    happenedAt: '2026-05-01',
  };
  await host.record({ ...order, input: { piece, count: 12, form: 'beaker', owner: { kind: 'own' } } });
  const { sentence, rows } = await host.report('kiln-log', 'by-month', {});
  expect(rows).toEqual([{ month: '2026-05', pieces: 12 }]);
  expect(sentence).toBe('12 pieces were begun.');
  await host.close();
  const vitest = await startVitest('test', [], {
    root: join(nearby, 'kiln-log'),
    watch: false,
    config: false,
    reporters: [{}],
  });
  expect(vitest.state.getFiles().map(({ result }) => result?.state)).toEqual(['pass']);
  await vitest.close();
});

test.each([
  ['Kiln Log', 'lower-case words with hyphens'],
  ['../kiln-log', 'lower-case words with hyphens'],
])('a plugin cannot be called %s', async (name, sentence) => {
  expect(await atTheDesk().type('new', 'plugin', name)).toMatchObject({
    code: 2,
    err: expect.stringContaining(sentence),
  });
});

test('a plugin is never written over', async () => {
  const { type } = atTheDesk();
  const folder = written('');
  expect(await type('new', 'plugin', 'kiln-log', '--plugins', folder)).toMatchObject({
    code: 1,
    err: expect.stringContaining('is there already'),
  });
  expect(await type('new', 'plugin', 'shelf')).toMatchObject({
    code: 1,
    err: 'Wareboard has a plugin shelf already.\n',
  });
});

test('plugins of a folder come after Wareboard’s own, in the order of their names', async () => {
  const folder = temporary();
  for (const id of ['b-second', 'a-first', '.hidden']) {
    mkdirSync(join(folder, id));
    writeFileSync(
      join(folder, id, 'index.mjs'),
      `export default { id: '${id}', contract: 1, about: '', needs: [], prefixes: [] };`,
    );
  }
  const desk = atTheDesk();
  await desk.type('verify', '--plugins', folder);
  expect(desk.opened[0]!.plugins).toEqual(['shelf', 'a-first', 'b-second']);
});

test('one of Wareboard’s own plugins in the folder is not loaded twice', async () => {
  const desk = atTheDesk();
  await desk.type(
    'verify',
    '--plugins',
    written("export default { id: 'shelf', contract: 1, needs: [], prefixes: [] };"),
  );
  expect(desk.opened[0]!.plugins).toEqual(['shelf']);
});

test.each([
  ['throws', 'throw new Error("no kiln");', 'could not be loaded: no kiln'],
  ['exports nothing', 'export const plugin = {};', 'has no plugin as its default export'],
  ['exports something else', 'export default 7;', 'has no plugin as its default export'],
])('a folder whose index %s is refused by its name', async (_how, index, sentence) => {
  const desk = atTheDesk();
  const { code, err } = await desk.type('verify', '--plugins', written(index));
  expect(code).toBe(1);
  expect(err).toContain('kiln-log');
  expect(err).toContain(sentence);
  expect(desk.opened).toEqual([]);
});

test('a folder without an index, and one that is not there, are refused', async () => {
  const { type } = atTheDesk();
  expect((await type('verify', '--plugins', written('', 'main.js'))).err).toContain(
    'has no index.ts or index.js',
  );
  expect((await type('verify', '--plugins', '/nowhere')).err).toContain('/nowhere is not there.');
});

test('a plugin made for another version of the contract is refused by name', async () => {
  const plugins = await loadPlugins(
    written("export default { id: 'kiln-log', contract: 99, about: '', needs: [], prefixes: [] };"),
  );
  const opening = openHost({
    dir: temporary(),
    plugins: [...PLUGINS, ...(plugins as Plugin[])],
    clock: () => new Date(0),
  });
  await expect(opening).rejects.toThrow(/“kiln-log” was made for version 99/);
});
