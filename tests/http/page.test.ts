import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { temporary } from '../support/folder.ts';
import { smallApp } from './small-studio.ts';

function withPage() {
  const folder = temporary('page');
  const web = join(folder, 'web');
  mkdirSync(join(web, 'assets'), { recursive: true });
  writeFileSync(join(folder, 'secret.txt'), 'secret');
  writeFileSync(join(web, 'index.html'), '<!doctype html><title>Wareboard</title>');
  writeFileSync(join(web, 'assets', 'index-BX3kq9_a.js'), 'start()');
  writeFileSync(join(web, 'assets', 'index-BX3kq9_a.js.map'), '{}');
  writeFileSync(join(web, 'icon.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  return smallApp({ web });
}

test.each(['/', '/ware', '/ware/0197-a.b1/grade', '/kilns'])(
  'the page is given at %s, and asked for afresh each time',
  async (path) => {
    const answer = await withPage().ask(path);
    expect(answer.headers.get('content-type')).toMatch('text/html');
    expect(answer.headers.get('cache-control')).toBe('no-cache');
    expect(await answer.text()).toContain('<title>Wareboard</title>');
  },
);

test('a file whose name changes with what it holds is kept by the browser', async () => {
  const { ask } = withPage();
  const script = await ask('/assets/index-BX3kq9_a.js');
  expect(script.headers.get('cache-control')).toBe('public, max-age=31536000, immutable');
  expect(script.headers.get('content-type')).toMatch('text/javascript');
  expect((await ask('/icon.svg')).headers.get('cache-control')).toBe('no-cache');
});

test.each([
  '/nothing',
  '/ware/../secret.txt',
  '/today.php',
  '/assets/nothing.js',
  '/assets/index-BX3kq9_a.js.map',
  '/../secret.txt',
  '/%2e%2e/secret.txt',
  '/assets/..%2f..%2fsecret.txt',
  '//etc/passwd',
  '/constructor',
])('%s is not there', async (path) => {
  const answer = await withPage().ask(`http://localhost:4280${path}`);
  expect(answer.status).toBe(404);
  expect(await answer.text()).not.toContain('secret');
});

test('an address under /api is never answered with the page', async () => {
  const answer = await withPage().ask('/api/ware');
  expect(answer.status).toBe(404);
  expect(answer.headers.get('content-type')).toBe('application/problem+json');
});

test('a head request is answered without the file', async () => {
  const answer = await withPage().ask('/icon.svg', { method: 'HEAD' });
  expect(answer.status).toBe(200);
  expect(answer.headers.get('content-length')).toBe('41');
  expect(await answer.text()).toBe('');
});
