/** Every home the log can have, for suites that run against each. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { EventLog } from '../../server/log/log.ts';
import { openLog, openLogInMemory } from '../../server/log/open.ts';
import { freshFolder, steppingClock } from './log.ts';
import { sqldRunsHere, startSqld } from './sqld.ts';

export interface Housed {
  log: EventLog;
  /** Closes the log and opens it again; undefined where it lives in memory only. */
  readonly reopen?: () => Promise<EventLog>;
  end(): Promise<void>;
}

export interface HomeForTests {
  readonly name: string;
  readonly runsHere: boolean;
  make(): Promise<Housed>;
}

export const HOMES: readonly HomeForTests[] = [
  { name: 'in memory', runsHere: true, make: inMemory },
  { name: 'embedded, written in process', runsHere: true, make: () => onFile(false) },
  { name: 'embedded, written on a thread', runsHere: true, make: () => onFile(true) },
  { name: 'on a libsql server', runsHere: sqldRunsHere, make: onServer },
];

async function inMemory(): Promise<Housed> {
  const log = openLogInMemory(steppingClock());
  return { log, end: () => log.close() };
}

async function onFile(thread: boolean): Promise<Housed> {
  const dir = freshFolder();
  const clock = steppingClock();
  return housed(
    () => openLog({ dir, clock, thread }),
    async () => rmSync(dir, { recursive: true, force: true }),
  );
}

async function onServer(): Promise<Housed> {
  const server = await startSqld();
  const dir = freshFolder();
  const clock = steppingClock();
  return housed(
    () => openLog({ url: server.url, clock, headFile: join(dir, 'log.head') }),
    async () => {
      await server.end();
      rmSync(dir, { recursive: true, force: true });
    },
  );
}

async function housed(open: () => Promise<EventLog>, clear: () => Promise<void>): Promise<Housed> {
  const it: Housed = {
    log: await open(),
    reopen: async () => {
      await it.log.close();
      it.log = await open();
      return it.log;
    },
    end: async () => {
      await it.log.close();
      await clear();
    },
  };
  return it;
}
