import { existsSync, writeFileSync } from 'node:fs';
import { get } from 'node:http';
import { createServer } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { LOCK } from '../../server/cli/lock.ts';
import type { ImportRequest } from '../../server/http/services.ts';
import { put } from '../http/small-studio.ts';
import { temporary } from '../support/folder.ts';
import { atTheDesk } from './at-the-desk.ts';
import { SUMMARY } from './summary.ts';

/** Serves while `work` is done, and ends it in order. */
async function whileServing(desk: ReturnType<typeof atTheDesk>, work: (address: string) => Promise<void>) {
  const serving = desk.type('serve');
  try {
    await work(await Promise.race([desk.address, serving.then(({ err }) => Promise.reject(new Error(err)))]));
  } finally {
    desk.stop();
  }
  return serving;
}

test('it prints where it can be reached, and goes in order when it is stopped', async () => {
  const desk = atTheDesk();
  const { code, out } = await whileServing(desk, async (address) => {
    const { ok } = await (await fetch(`${address}/api/health`)).json();
    expect(ok).toBe(true);
    expect(existsSync(join(desk.dir, LOCK))).toBe(true);
  });
  expect(code).toBe(0);
  expect(out).toMatch(/^Wareboard is at http:\/\/127\.0\.0\.1:\d+\n/);
  expect(existsSync(join(desk.dir, LOCK))).toBe(false);
  expect(desk.opened).toEqual([{ dir: desk.dir, thread: true, plugins: ['shelf'] }]);
});

test('it can be reached from this machine only, by its own names only', async () => {
  await whileServing(atTheDesk(), async (address) => {
    const { port } = new URL(address);
    const status = (headers: Record<string, string>) =>
      new Promise((resolve) =>
        get(`${address}/api/health`, { headers }, ({ statusCode }) => resolve(statusCode)),
      );
    expect(await status({ host: `localhost:${port}` })).toBe(200);
    expect(await status({ host: `hollin-yard.example:${port}` })).toBe(421);
    const outside = Object.values(networkInterfaces())
      .flat()
      .find((each) => each && !each.internal && each.family === 'IPv4');
    if (outside) await expect(fetch(`http://${outside.address}:${port}/api/health`)).rejects.toThrow();
  });
});

test('while it runs, the other verbs go through it and open nothing themselves', async () => {
  const desk = atTheDesk();
  const other = atTheDesk({ dir: desk.dir });
  await whileServing(desk, async (address) => {
    const order = {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(put(3)),
    };
    await fetch(`${address}/api/commands`, order);
    expect((await other.type('report', 'shelf', 'pots', '--csv')).out).toBe(
      'count,glaze\r\n3,Marram Green\r\n',
    );
    expect((await other.type('verify')).out).toContain('The one entry fits.');
    expect((await other.type('rebuild', 'shelf')).code).toBe(0);
    expect((await other.type('forget', 'p-17')).code).toBe(0);
    expect(await other.type('forget', 'nobody')).toMatchObject({
      code: 1,
      err: 'There is no such person.\n',
    });
    expect(await other.type('serve')).toMatchObject({
      code: 1,
      err: expect.stringContaining(`serves it at ${address}`),
    });
    expect(await other.type('restore', temporary())).toMatchObject({
      code: 1,
      err: expect.stringContaining('stop it first'),
    });
  });
  expect(desk.studio.rebuilt).toEqual(['shelf']);
  expect(desk.studio.forgotten).toEqual(['p-17']);
  expect(other.opened).toEqual([]);
});

test('an import through it sends the file, waits for the end and gives its summary', async () => {
  const asked: unknown[] = [];
  const imports = {
    notebook: async ({ dryRun, mapping, device }: ImportRequest) => {
      asked.push({ dryRun, mapping, device });
      return SUMMARY;
    },
  };
  const desk = atTheDesk({ imports });
  const other = atTheDesk({ dir: desk.dir, imports });
  const file = join(temporary(), 'notebook.csv');
  writeFileSync(file, 'made,form\n2026-05-01,beaker\n');
  await whileServing(desk, async () => {
    const { code, out } = await other.type(
      'import',
      'notebook',
      file,
      '--dry-run',
      '--map',
      'Made = on=made',
    );
    expect(code).toBe(0);
    expect(out).toContain(
      '2 rows, 13 pieces, 1 firing: 9 entries would be recorded; 1 step recorded before.\n',
    );
  });
  expect(asked).toEqual([{ dryRun: true, mapping: { 'Made = on': 'made' }, device: 'command-line' }]);
});

test('a port that another program has is named, with another one to take', async () => {
  const taken = createServer().listen(0, '127.0.0.1');
  await new Promise((listening) => taken.once('listening', listening));
  const { port } = taken.address() as { port: number };
  const desk = atTheDesk({ env: { PORT: String(port) } });
  const { code, err } = await desk.type('serve');
  taken.close();
  expect(code).toBe(1);
  expect(err).toContain(`Port ${port} is taken by another program.`);
  expect(existsSync(join(desk.dir, LOCK))).toBe(false);
});

test('the demo is made before anybody is let in, in a folder that goes with it', async () => {
  const made: string[] = [];
  const desk = atTheDesk({
    demo: async (dir, today) => {
      made.push(dir, today);
    },
  });
  const running = desk.type('demo');
  await desk.address;
  const { dir } = desk.opened[0]!;
  expect(made).toEqual([dir, '2026-05-01']);
  expect(existsSync(dir)).toBe(true);
  desk.stop();
  expect((await running).code).toBe(0);
  expect(existsSync(dir)).toBe(false);
});
