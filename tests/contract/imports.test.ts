import { describe, expect, test } from 'vitest';
import { circleIn, importsOf, lost, sourceFiles } from '../support/imports.ts';

const files = sourceFiles('server', 'plugins', 'web');
/** The text of a new plugin's files stands in this one. */
const TEXTS = 'server/cli/new-plugin-files.ts';
const imports = files.filter((file) => file !== TEXTS).flatMap(importsOf);

/** Each folder, and the only folders of ours that it may import besides itself. */
const RULES: readonly (readonly [folder: string, knows: readonly string[], why: string])[] = [
  ['server/contract/', [], 'the contract imports nothing of ours'],
  ['server/log/', ['server/contract/'], 'the log knows entries, not pots'],
  ['server/people/', ['server/contract/'], 'the erasable store knows texts, not pots'],
  ['server/files/', ['server/contract/'], 'the keeper of files knows pictures, not pots'],
  ['server/network/', [], 'who may come in is no matter of the record'],
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
      ...['forms', 'round', 'scan', 'shape', 'sheets', 'spec', 'svg', 'piece.ts', 'template.ts'].map(
        (part) => `plugins/template-sheets/${part}`,
      ),
    ],
    'the page imports types, the pure deciders, and the geometry that it shows as it is typed',
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

  test('and never in a circle while the program runs', () => {
    expect(circleIn(imports.filter(({ typeOnly }) => !typeOnly))).toBeUndefined();
  });
});
