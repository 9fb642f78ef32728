/** Comes to the data folder: opens it, or finds the server that has it open. */
import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Host } from '../host/host.ts';
import { inFolder } from './in-folder.ts';
import { type Holder, isLock, type Lock, takeLock } from './lock.ts';
import { pluginsFor } from './plugin-folder.ts';
import { throughServer } from './through-server.ts';
import { type Desk, Failed, type Words } from './verb.ts';
import type { Workplace } from './workplace.ts';

/** Milliseconds that a verb waits for another to be done with the folder. */
const PATIENCE = 10_000;
const LOOK = 100;

export function dataFolder(words: Words, { env, cwd }: Desk): string {
  return resolve(cwd, words.text('data') ?? env.WAREBOARD_DATA ?? 'data');
}

/** Does the work where it can be done, and leaves again. @throws Failed when somebody else holds the folder */
export async function atWork<T>(words: Words, desk: Desk, work: (at: Workplace) => Promise<T>): Promise<T> {
  const dir = dataFolder(words, desk);
  if (!existsSync(dir)) desk.terminal.err(`${dir} is not there yet and is made.\n`);
  const taken = await lockOrServer(dir);
  const at = isLock(taken) ? await openFolder(dir, words, desk, taken) : throughServer(taken.address!, desk);
  try {
    return await work(at);
  } finally {
    await at.close();
  }
}

/** The lock, or the server that holds it; waits a little for a verb that is just ending. */
export async function lockOrServer(dir: string, patience = PATIENCE): Promise<Lock | Holder> {
  const instance = randomUUID();
  for (let waited = 0; ; waited += LOOK) {
    const taken = takeLock(dir, instance);
    if (isLock(taken) || taken.address !== undefined) return taken;
    if (waited >= patience)
      throw new Failed(
        `${dir} is being worked on by process ${taken.pid} on ${taken.machine}; try again when it is done.`,
      );
    await pause(LOOK);
  }
}

async function openFolder(dir: string, words: Words, desk: Desk, lock: Lock): Promise<Workplace> {
  try {
    return inFolder(dir, await openHost(dir, words, desk, false), lock, desk);
  } catch (error) {
    lock.release();
    throw error;
  }
}

export async function openHost(dir: string, words: Words, desk: Desk, thread: boolean): Promise<Host> {
  const { parts, clock, env } = desk;
  const plugins = await pluginsFor(words, desk);
  return parts.openHost({ dir, url: env.WAREBOARD_LOG_URL, clock, thread, plugins });
}
