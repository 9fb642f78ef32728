/** Opens the log in the home it has. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { connect } from './embedded/connection.ts';
import { EmbeddedLog } from './embedded/log.ts';
import { inProcess, onThread } from './embedded/places.ts';
import type { Clock, EventLog } from './log.ts';

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
}

/** @throws LogDamaged when the file cannot be read at all, or was written by a newer Wareboard */
export async function openLog(options: EmbeddedOptions): Promise<EventLog> {
  const { dir, clock, busyTimeout } = options;
  mkdirSync(dir, { recursive: true });
  const file = join(dir, 'log.db');
  const headFile = options.headFile ?? join(dir, 'log.head');
  const place = options.thread
    ? await onThread({ file, headFile, busyTimeout })
    : inProcess({ file, headFile, busyTimeout });
  return new EmbeddedLog(place, connect(file, busyTimeout), { file, headFile }, clock);
}

/** A log that lives and dies with the process, for tests. */
export function openLogInMemory(clock: Clock): EventLog {
  const place = inProcess({ file: ':memory:', headFile: undefined });
  return new EmbeddedLog(place, place.writer.connection, undefined, clock);
}
