import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { PLUGINS } from '../../server/manifest.ts';
import { temporary } from '../support/folder.ts';
import { lookAt } from '../support/looked-at.ts';
import { atTheDesk } from './at-the-desk.ts';

const folder = temporary();
const file = (name: string, content: unknown): string => {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
};
const desk = () => atTheDesk({ plugins: PLUGINS });

const frustum = file('frustum.json', { form: 'frustum', bottom: 60, top: 100, height: 80, name: 'Beaker' });

test('a spec becomes sheets and JSON that agree on the number of pages', async () => {
  const { type, dir, opened } = desk();
  const to = join(folder, 'beaker.pdf');
  const { code, out, err } = await type('template', frustum, '--paper', 'A4', '--to', to, '--json');
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const told = JSON.parse(out);
  // s, R, r and the angle by the published relation, as in the tests of forms.
  expect(told.outerRadius).toBeCloseTo(206.155281, 6);
  expect(told.innerRadius).toBeCloseTo(123.693169, 6);
  expect(told.angle).toBeCloseTo(87.312825, 6);
  const [wall] = told.pieces;
  expect(wall.edges).toContainEqual({ name: expect.any(String), length: expect.closeTo(Math.PI * 100, 3) });
  expect(wall.outline.every((point: number[]) => point.length === 2)).toBe(true);
  const seen = lookAt(readFileSync(to));
  expect(seen.pages).toBe(told.pages);
  expect(seen.title).toBe('Beaker');
  // Nothing is recorded and no data folder is made.
  expect(opened).toEqual([]);
  expect(existsSync(dir)).toBe(false);
});

test('with a shrinkage the pieces are as much larger', async () => {
  const plain = JSON.parse((await desk().type('template', frustum, '--json')).out);
  const larger = JSON.parse((await desk().type('template', frustum, '--shrinkage', '0.12', '--json')).out);
  expect(larger.pieces[0].width).toBeCloseTo(plain.pieces[0].width / 0.88, 6);
});

test('an SVG file is a template too, and what was left out of it is said', async () => {
  const svg = file(
    'tile.svg',
    '<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60"><script>alert(1)</script><rect width="80" height="60"/></svg>',
  );
  const to = join(folder, 'tile.pdf');
  const { code, err, out } = await desk().type('template', svg, '--paper', 'Letter', '--to', to, '--json');
  expect(code).toBe(0);
  expect(err).toMatch(/script/);
  expect(JSON.parse(out).pieces[0]).toMatchObject({
    width: expect.closeTo(80, 6),
    height: expect.closeTo(60, 6),
  });
  const seen = lookAt(readFileSync(to));
  expect(seen.size(0).width).toBeCloseTo(215.9, 3);
  expect(seen.title).toBe('tile');
});

test.each([
  ['no spec at all', file('none.json', '{"form":'), [], 1, /none\.json: The spec is not JSON/],
  ['a list', file('list.json', [1]), [], 1, /should be a group of fields/],
  [
    'an unknown form',
    file('teapot.json', { form: 'teapot' }),
    [],
    1,
    /“form” is “teapot”; it should be one of cylinder/,
  ],
  [
    'a negative size',
    file('less.json', { form: 'cylinder', diameter: -9, height: 120 }),
    [],
    1,
    /“diameter” is -9/,
  ],
  [
    'a pot of 10 m',
    file('tall.json', { form: 'cylinder', diameter: 90, height: 10_000 }),
    [],
    1,
    /“height” is 10000/,
  ],
  ['all of the clay gone', frustum, ['--shrinkage', '1'], 1, /“shrinkage” is 1; it should be a share/],
  ['a shrinkage in words', frustum, ['--shrinkage', 'much'], 2, /--shrinkage: .*“much” was given/],
  ['a paper that nobody has', frustum, ['--paper', 'B7'], 1, /“paper” is “B7”; it should be A4/],
  ['a file that is not there', join(folder, 'gone.json'), [], 1, /gone\.json could not be read \(ENOENT\)/],
  [
    'an SVG that names an entity',
    file('e.svg', '<!DOCTYPE svg [<!ENTITY a "b">]><svg>&a;</svg>'),
    [],
    1,
    /e\.svg: /,
  ],
] as const)('%s is refused with a sentence', async (_what, path, more, code, sentence) => {
  const told = await desk().type('template', path, '--json', ...more);
  expect(told).toMatchObject({ code, out: '', err: expect.stringMatching(sentence) });
});

test('it must be said where the sheets go', async () => {
  expect(await desk().type('template', frustum)).toMatchObject({
    code: 2,
    err: expect.stringMatching(/--to OUT\.pdf/),
  });
  expect(await desk().type('template')).toMatchObject({ code: 2 });
});
