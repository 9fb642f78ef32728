import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { ImportRequest } from '../../server/http/services.ts';
import type { Summary } from '../../server/import/notebook/import.ts';
import { temporary } from '../support/folder.ts';
import { atTheDesk } from './at-the-desk.ts';
import { SUMMARY } from './summary.ts';

function importing(summary: Summary) {
  const asked: Omit<ImportRequest, 'host' | 'progress'>[] = [];
  const file = join(temporary(), 'notebook.csv');
  writeFileSync(file, 'made,form\n2026-05-01,beaker\n');
  const desk = atTheDesk({
    imports: {
      notebook: async ({ host: _, progress, ...rest }) => {
        progress(1, 2);
        asked.push(rest);
        return summary;
      },
    },
  });
  return { desk, asked, file, type: (...words: string[]) => desk.type('import', 'notebook', file, ...words) };
}

test('an import says what it recorded and what it met for the first time', async () => {
  const { type, asked, desk, file } = importing(SUMMARY);
  const { code, out } = await type();
  expect(code).toBe(0);
  expect(out).toBe(
    '2 rows, 13 pieces, 1 firing: 9 entries recorded; 1 step recorded before.\nNew glazes: Marram Green.\n',
  );
  expect(asked).toEqual([
    {
      source: file,
      dryRun: false,
      mapping: undefined,
      folder: desk.dir,
      who: 'maker',
      device: 'command-line',
    },
  ]);
});

test('a bad row is told with its line, what was found and what was expected, and makes the exit code 1', async () => {
  const bad = [
    { line: 7, column: 'made', found: '31/02', expected: 'a day like 2026-05-01' },
    { line: 7, column: 'count', found: '-3', expected: 'a number from 1' },
  ];
  const { code, err, out } = await importing({ ...SUMMARY, bad }).type();
  expect(code).toBe(1);
  expect(err).toContain('line 7, made: found “31/02”; expected a day like 2026-05-01\n');
  expect(err).toContain('1 row could not be read; the good rows are recorded all the same.\n');
  expect(out).toContain('9 entries recorded');
});

test('a dry run lists row by row what would be recorded', async () => {
  const preview = [
    { line: 2, sentences: ['Begun on 2026-05-01: a piece.', 'Priced: £12.00.'], struck: 0 },
    { line: 3, sentences: [], struck: 0 },
  ];
  const { out } = await importing({ ...SUMMARY, preview, repeated: 0, unknown: ['Mood'] }).type('--dry-run');
  expect(out).toContain('line 2: Begun on 2026-05-01: a piece. Priced: £12.00.\n2 rows');
  expect(out).toContain('9 entries would be recorded.\n');
  expect(out).toContain('Columns that were not read: Mood');
});

test('headings are mapped as they are written, also those that hold an equals sign', async () => {
  const { type, asked } = importing(SUMMARY);
  await type('--map', 'Glazed with=glazes', '--map=a=b=form');
  expect(asked[0]!.mapping).toEqual({ 'Glazed with': 'glazes', 'a=b': 'form' });
  expect(await type('--map', 'glazes')).toMatchObject({
    code: 2,
    err: '--map wants HEADING=COLUMN, not glazes.\n',
  });
});

test('a file that is not there is named', async () => {
  const { desk } = importing(SUMMARY);
  const { code, err } = await desk.type('import', 'notebook', '/nowhere/notebook.csv');
  expect(code).toBe(1);
  expect(err).toBe('There is no file /nowhere/notebook.csv.\n');
});
