import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { temporary } from '../support/folder.ts';
import { atTheDesk } from './at-the-desk.ts';

test('a paper is written to the file that is named', async () => {
  const to = join(temporary(), 'label.pdf');
  const { code, out } = await atTheDesk().type(
    'paper',
    'shelf',
    'label',
    '--glaze',
    'Gannet Grey',
    '--to',
    to,
  );
  expect({ code, out }).toEqual({ code: 0, out: '' });
  expect(readFileSync(to, 'utf8')).toBe('%PDF-1.7 {"glaze":"Gannet Grey"}');
});

test('it comes through the server that has the folder open, byte by byte', async () => {
  const desk = atTheDesk();
  const serving = desk.type('serve');
  await desk.address;
  const to = join(temporary(), 'label.pdf');
  expect(await desk.type('paper', 'shelf', 'label', '--to', to)).toMatchObject({ code: 0, err: '' });
  expect(readFileSync(to, 'utf8')).toBe('%PDF-1.7 {}');
  const refused = await desk.type('paper', 'shelf', 'label', '--glaze', 'none', '--to', to);
  expect(refused).toMatchObject({
    code: 1,
    err: expect.stringContaining('There is no glaze to put on the label.'),
  });
  desk.stop();
  await serving;
});

test.each([
  ['without a file to write', ['shelf', 'label'], 2, /--to OUT\.pdf/],
  ['of no plugin', ['shelf', 'poster', '--to', 'x.pdf'], 1, /has no paper “poster”/],
  [
    'into a folder that is not there',
    ['shelf', 'label', '--to', '/nowhere/at/all.pdf'],
    1,
    /could not be written \(ENOENT\)/,
  ],
] as const)('a paper %s is refused', async (_how, words, code, sentence) => {
  const told = await atTheDesk().type('paper', ...words);
  expect(told.code).toBe(code);
  expect(told.err).toMatch(sentence);
});
