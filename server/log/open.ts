/** Opens the log in the home it has. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileHome, memoryHome } from './embedded/home.ts';
import { inProcess, onThread } from './embedded/places.ts';
import { HomedLog } from './home.ts';
import type { Clock, EventLog } from './log.ts';
import type { Disk } from './outside-head.ts';
import { remoteHome } from './remote/home.ts';

export interface EmbeddedOptions {
  /** Folder of `log.db`; made if it is not there. */
  readonly dir: string;
  readonly clock: Clock;
  /** Write on a thread of its own, so that requests are not held up. Default: in this process. */
  readonly thread?: boolean;
  /** Default: `log.head` beside the database. */
  readonly headFile?: string;
  /** Milliseconds to wait while somebody else has the file locked. Default 5000. */
  readonly busyTimeout?: number;
  /** How the outside head reaches the disk, to be watched in tests; only in this process. */
  readonly disk?: Disk;
}

export interface RemoteOptions {
  /** Of a libsql server ('http://127.0.0.1:8080'). */
  readonly url: string;
  readonly clock: Clock;
  /** This Wareboard's own outside head, a file on its own disk. */
  readonly headFile: string;
  readonly authToken?: string;
}

/** @throws LogDamaged when the log cannot be read at all, or was written by a newer Wareboard */
export async function openLog(options: EmbeddedOptions | RemoteOptions): Promise<EventLog> {
  const home = 'url' in options ? await remoteHome(options) : await openFile(options);
  return new HomedLog(home, options.clock);
}

async function openFile(options: EmbeddedOptions) {
  const { dir, busyTimeout, disk } = options;
  mkdirSync(dir, { recursive: true });
  const file = join(dir, 'log.db');
  const headFile = options.headFile ?? join(dir, 'log.head');
  const writer = { file, headFile, busyTimeout };
  const place = options.thread ? await onThread(writer) : inProcess({ ...writer, disk });
  return fileHome(place, file, headFile);
}

/** A log that lives and dies with the process, for tests. */
export function openLogInMemory(clock: Clock): EventLog {
  const place = inProcess({ file: ':memory:', headFile: undefined });
  return new HomedLog(memoryHome(place, place.writer.connection), clock);
}
