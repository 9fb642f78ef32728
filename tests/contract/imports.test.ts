import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { circleIn, importsOf, lost, ROOT, sourceFiles } from '../support/imports.ts';

const files = sourceFiles('server', 'plugins', 'web');
/** The file without the imports of types, which are gone when it runs. */
const valuesOf = (file: string): string =>
  readFileSync(join(ROOT, file), 'utf8').replaceAll(/^import type [^;]*;/gms, '');

/** The text of a new plugin's files stands in this one. */
const TEXTS = 'server/cli/new-plugin-files.ts';
const imports = files.filter((file) => file !== TEXTS).flatMap(importsOf);

/** What of the host decides, and is pure: the page decides ahead with it while it is offline. */
const DECIDING = [
  ...['decider', 'desk', 'host', 'order', 'read-order', 'registry', 'texts', 'view'].map(
    (name) => `server/host/${name}.ts`,
  ),
  'server/log/log.ts',
];

/** Each folder, and the only folders of ours that it may import besides itself. */
const RULES: readonly (readonly [folder: string, knows: readonly string[], why: string])[] = [
  ['server/contract/', [], 'the contract imports nothing of ours'],
  ['server/log/', ['server/contract/'], 'the log knows entries, not pots'],
  ['server/people/', ['server/contract/'], 'the erasable store knows texts, not pots'],
  ['server/files/', ['server/contract/'], 'the keeper of files knows pictures, not pots'],
  ['server/network/', [], 'who may come in is no matter of the record'],
  [
    'server/timed/',
    ['server/contract/', 'server/host/', 'server/network/private-file.ts'],
    'timed work goes by the host, like everybody',
  ],
  ['server/paper/', ['server/contract/'], 'drawing knows papers, not what is on them'],
  ['server/studio/', ['server/contract/'], 'the studio uses what any plugin could'],
  [
    'server/host/',
    ['server/contract/', 'server/log/', 'server/people/', 'server/files/', 'server/readmodels/'],
    'the host knows no plugin',
  ],
  [
    'server/readmodels/',
    ['server/contract/', 'server/log/', 'server/people/', 'server/host/'],
    'read models know no plugin',
  ],
  ['plugins/', ['server/contract/'], 'a plugin imports the contract and itself'],
  [
    'web/',
    [
      'server/contract/',
      'server/studio/',
      ...DECIDING,
      ...['forms', 'round', 'scan', 'shape', 'sheets', 'spec', 'svg', 'piece.ts', 'template.ts'].map(
        (part) => `plugins/template-sheets/${part}`,
      ),
      'plugins/shop-orders/label-grid.ts',
    ],
    'the page imports types, the pure deciders and what decides with them, and the geometry that it shows as it is typed',
  ],
];

describe('imports point one way', () => {
  test('and every import leads to a file', () => {
    expect(files.length).toBeGreaterThan(100);
    expect(imports.length).toBeGreaterThan(300);
    expect(lost(imports)).toEqual([]);
  });

  test.each(RULES)('%s', (folder, knows, why) => {
    const wrong = imports.filter(({ from, to }) => {
      const home = folder === 'plugins/' ? from.split('/').slice(0, 2).join('/') : folder;
      return from.startsWith(folder) && !to.startsWith(home) && !knows.some((known) => to.startsWith(known));
    });
    expect(wrong, why).toEqual([]);
  });

  test('and only the manifest names a plugin', () => {
    const naming = imports.filter(({ from, to }) => from.startsWith('server/') && to.startsWith('plugins/'));
    expect([...new Set(naming.map(({ from }) => from))]).toEqual(['server/manifest.ts']);
  });

  test('and what the page runs needs neither Node nor a database', () => {
    const running = imports.filter(({ typeOnly }) => !typeOnly);
    const reached = new Set(running.filter(({ from }) => from.startsWith('web/')).map(({ to }) => to));
    for (const file of reached) for (const { from, to } of running) if (from === file) reached.add(to);
    const deciding = [...reached].filter((file) => file.startsWith('server/'));
    expect(deciding).toContain('server/host/decide.ts');
    const unfit = deciding.filter((file) => /from '(node:|libsql|@libsql)/.test(valuesOf(file)));
    expect(unfit).toEqual([]);
  });

  test('and never in a circle while the program runs', () => {
    expect(circleIn(imports.filter(({ typeOnly }) => !typeOnly))).toBeUndefined();
  });
});
