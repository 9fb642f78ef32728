/** Logs for tests: quick to make, with a clock that steps by itself. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Clock, EventLog } from '../../server/log/log.ts';
import { openLog, openLogInMemory } from '../../server/log/open.ts';

export interface TestLog {
  readonly log: EventLog;
  /** The log's folder; undefined for a log in memory. */
  readonly dir: string | undefined;
  /** Closes the log and removes its folder. */
  end(): Promise<void>;
}

/** Starts at `from` and goes on by `step` milliseconds each time it is read. */
export function steppingClock(from = '2026-05-01T09:00:00.000Z', step = 1000): Clock {
  let now = Date.parse(from) - step;
  return () => {
    now += step;
    return new Date(now);
  };
}

/** An embedded log written in process: in memory, or in a fresh folder of its own. */
export async function memoryishLog(options: { inMemory?: boolean; clock?: Clock } = {}): Promise<TestLog> {
  const clock = options.clock ?? steppingClock();
  if (options.inMemory) {
    const log = openLogInMemory(clock);
    return { log, dir: undefined, end: () => log.close() };
  }
  const dir = freshFolder();
  const log = await openLog({ dir, clock });
  return {
    log,
    dir,
    end: async () => {
      await log.close();
      rmSync(dir, { recursive: true, force: true });
    },
  };
}

export function freshFolder(): string {
  return mkdtempSync(join(tmpdir(), 'wareboard-'));
}
