/** Somebody else uses the file: an append waits, or fails loudly, and the log goes on. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type EventLog, LogUnavailable } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { begun, command } from '../support/appends.ts';
import { freshFolder, steppingClock } from '../support/log.ts';

describe.each([false, true])('written on a thread: %s', (thread) => {
  let dir: string;
  let log: EventLog;
  let other: Database.Database;
  beforeEach(async () => {
    dir = freshFolder();
    log = await openLog({ dir, clock: steppingClock(), thread, busyTimeout: 30 });
    await log.append(command(1, [begun('a')]));
    other = new Database(join(dir, 'log.db'));
  });
  afterEach(async () => {
    other.close();
    await log.close();
    rmSync(dir, { recursive: true, force: true });
  });

  /** Opened by somebody who knows nothing of this connection, as after a kill. */
  async function seenByOthers(): Promise<number> {
    const fresh = await openLog({ dir, clock: steppingClock() });
    const { entries, broken, missing } = await fresh.verify();
    await fresh.close();
    expect([broken, missing]).toEqual([undefined, undefined]);
    return entries;
  }

  test('while the file is locked every append fails, and none of it is there; afterwards all is', async () => {
    other.exec('BEGIN IMMEDIATE');
    const refused = await log.appendAll([command(2, [begun('b')]), command(3, [begun('c')])]);
    expect(refused).toEqual([expect.any(LogUnavailable), expect.any(LogUnavailable)]);
    await expect(log.append(command(4, [begun('d')]))).rejects.toThrow(/could not be written: .*locked/);
    other.exec('ROLLBACK');
    expect(await seenByOthers()).toBe(1);
    for (let n = 2; n <= 6; n++) {
      expect(await log.append(command(n, [begun('again')]))).toEqual({
        outcome: 'recorded',
        first: n,
        last: n,
      });
      expect(await seenByOthers()).toBe(n);
    }
  });

  test('a failure in the middle of a transaction leaves nothing behind, not even the lock', async () => {
    other.exec(`CREATE TRIGGER full BEFORE INSERT ON stream_entries WHEN NEW.stream = 'piece:c'
      BEGIN SELECT RAISE(ABORT, 'disk full'); END`);
    const failed = await log.appendAll([command(2, [begun('b')]), command(3, [begun('c')])]);
    expect(failed).toEqual([expect.any(LogUnavailable), expect.any(LogUnavailable)]);
    expect((failed[1] as Error).message).toContain('disk full');
    other.exec('DROP TRIGGER full');
    expect((await log.read(0, 10)).length).toBe(1);
    const sent = await log.appendAll([command(2, [begun('b')]), command(3, [begun('c')])]);
    expect(sent.map((it) => ('outcome' in it ? it.outcome : it))).toEqual(['recorded', 'recorded']);
    expect(await seenByOthers()).toBe(3);
  });

  test('a reader that stays in the middle of its work holds up nobody', async () => {
    other.exec('BEGIN');
    other.prepare('SELECT count(*) AS n FROM entries').all();
    await log.appendAll(Array.from({ length: 50 }, (_, n) => command(10 + n, [begun(`p${n}`)])));
    expect(other.prepare('SELECT count(*) AS n FROM entries').all()).toEqual([{ n: 1 }]);
    other.exec('ROLLBACK');
    expect(await seenByOthers()).toBe(51);
  });
});

test('on a thread an append waits for a lock that is given up in time', async () => {
  const dir = freshFolder();
  const log = await openLog({ dir, clock: steppingClock(), thread: true });
  const other = new Database(join(dir, 'log.db'));
  other.exec('BEGIN IMMEDIATE');
  const waiting = log.append(command(1, [begun('a')]));
  await log.head();
  other.exec('ROLLBACK');
  expect(await waiting).toEqual({ outcome: 'recorded', first: 1, last: 1 });
  other.close();
  await log.close();
  rmSync(dir, { recursive: true, force: true });
});
