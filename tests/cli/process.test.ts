import { type ChildProcessWithoutNullStreams, execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeAll, expect, test } from 'vitest';
import { LOCK } from '../../server/cli/lock.ts';
import { temporary } from '../support/folder.ts';

/* The program itself, as it is built, in processes of its own. */

const root = fileURLToPath(new URL('../../', import.meta.url));
beforeAll(() => execFileSync(process.execPath, ['server/build.mjs'], { cwd: root }), 120_000);

const running = new Set<ChildProcessWithoutNullStreams>();
afterEach(() => {
  for (const child of running) child.kill('SIGKILL');
});

function start(dir: string, ...words: string[]): ChildProcessWithoutNullStreams {
  const env = { ...process.env, WAREBOARD_DATA: dir, PORT: '0' };
  const child = spawn(process.execPath, ['dist/server/wareboard.js', ...words], { cwd: root, env });
  running.add(child);
  child.once('exit', () => running.delete(child));
  return child;
}

async function wareboard(dir: string, ...words: string[]) {
  const child = start(dir, ...words);
  let out = '';
  let err = '';
  child.stdout.on('data', (text) => {
    out += text;
  });
  child.stderr.on('data', (text) => {
    err += text;
  });
  const [code] = await once(child, 'close');
  return { code, out, err };
}

/** A server, once it has said where it is. */
async function serving(dir: string) {
  const child = start(dir, 'serve');
  for await (const line of createInterface({ input: child.stdout })) {
    const address = /^Wareboard is at (.+)$/.exec(line)?.[1];
    if (address !== undefined) return { child, address };
  }
  throw new Error('the server ended before it was reached');
}

const NOTEBOOK = [
  'piece,made,form,clay,glazes,glaze_firing,glaze_fired,kiln,faults,grade',
  ',2026-05-01,beaker,Fell White,outside: Marram Green,17,2026-05-10,Big Round,pinholes@inside,second',
  ',2026-05-02,bowl,Fell White,inside: Gannet Grey,17,2026-05-10,Big Round,,first',
  ',31/02,jug,Fell White,,,,,,',
  '',
].join('\r\n');

test('a notebook comes in twice, is counted once, and its bad row is named', async () => {
  const dir = join(temporary(), 'data');
  const file = join(temporary(), 'notebook.csv');
  writeFileSync(file, NOTEBOOK);
  const first = await wareboard(dir, 'import', 'notebook', file);
  expect(first.err).toContain('line 4, made: found “31/02”');
  expect(first.code).toBe(1);
  const again = await wareboard(dir, 'import', 'notebook', file);
  expect(again.out).toContain('0 entries recorded');
  const tally = await wareboard(dir, 'report', 'seconds-tally', 'by-glaze', '--json');
  expect(tally.code).toBe(0);
  const rows = JSON.parse(tally.out).rows as { key: string; pieces: number; seconds: number }[];
  expect(rows.map(({ key, pieces, seconds }) => [key, pieces, seconds]).sort()).toEqual([
    ['Gannet Grey', 1, 0],
    ['Marram Green', 1, 1],
  ]);
  expect(existsSync(join(dir, LOCK))).toBe(false);
}, 120_000);

test('while a server runs, an import goes through it; killed, it leaves a lock that is taken over', async () => {
  const dir = join(temporary(), 'data');
  const file = join(temporary(), 'notebook.csv');
  writeFileSync(file, NOTEBOOK);
  const { child, address } = await serving(dir);
  expect(JSON.parse(readFileSync(join(dir, LOCK), 'utf8'))).toMatchObject({ pid: child.pid, address });
  const imported = await wareboard(dir, 'import', 'notebook', file);
  expect(imported.out).toMatch(/[1-9]\d* entries recorded/);
  const { rows } = await (await fetch(`${address}/api/reports/studio/ware`)).json();
  expect(rows).toHaveLength(2);
  const backup = join(temporary(), 'backup');
  expect((await wareboard(dir, 'backup', backup)).out).toContain('are backed up');

  child.kill('SIGKILL');
  await once(child, 'exit');
  expect(existsSync(join(dir, LOCK))).toBe(true);
  const verified = await wareboard(dir, 'verify');
  expect(verified).toMatchObject({ code: 0, out: expect.stringContaining('entries fit') });
  expect(existsSync(join(dir, LOCK))).toBe(false);
}, 120_000);

test('a server that is asked to stop ends in order, with exit code 0', async () => {
  const dir = join(temporary(), 'data');
  const { child, address } = await serving(dir);
  const live = await fetch(`${address}/api/log/live`);
  expect(live.status).toBe(200);
  child.kill('SIGTERM');
  const [code] = await once(child, 'exit');
  expect(code).toBe(0);
  expect(existsSync(join(dir, LOCK))).toBe(false);
  await live.body?.cancel().catch(() => {});
}, 120_000);

test('what is built already is not built again', () => {
  const built = () =>
    ['web/index.html', 'server/wareboard.js'].map((file) => statSync(join(root, 'dist', file)).mtimeMs);
  const before = built();
  execFileSync(process.execPath, ['server/build.mjs'], { cwd: root });
  expect(built()).toEqual(before);
});

test('wrong words end with exit code 2', async () => {
  expect(await wareboard(join(temporary(), 'data'), 'fire')).toMatchObject({ code: 2, out: '' });
}, 60_000);
