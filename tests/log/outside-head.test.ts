import { copyFileSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { NOTHING, sha256 } from '../../server/log/chain.ts';
import { LogDamaged, LogUnavailable } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { type Disk, OutsideHead, readOutsideHead, realDisk } from '../../server/log/outside-head.ts';
import { begun, command } from '../support/appends.ts';
import { freshFolder, steppingClock } from '../support/log.ts';

let dir: string;
let file: string;
beforeEach(() => {
  dir = freshFolder();
  file = join(dir, 'log.head');
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

const head = (count: number) => ({ count, hash: sha256(String(count)) });

describe('the outside head', () => {
  test('keeps what was written last', () => {
    const outside = OutsideHead.create(file, NOTHING);
    for (let count = 1; count <= 12; count++) {
      outside.write(head(count));
      expect(readOutsideHead(file)).toEqual(head(count));
    }
    outside.close();
    expect(readOutsideHead(join(dir, 'none'))).toBeUndefined();
  });

  test('torn at any byte, it still knows the one before', () => {
    const torn = new Set<number>();
    const outside = OutsideHead.create(file, head(9));
    outside.write(head(10));
    outside.close();
    const older = readFileSync(file);
    const again = OutsideHead.open(file)!;
    again.write(head(11));
    again.close();
    const newer = readFileSync(file);
    const from = older.findIndex((byte, at) => byte !== newer[at]);
    for (let cut = from; cut < from + 160; cut++) {
      writeFileSync(file, Buffer.concat([newer.subarray(0, cut), older.subarray(cut)]));
      torn.add(readOutsideHead(file)!.count);
    }
    expect([...torn].sort()).toEqual([10, 11]);
  });

  test('says so when neither slot can be read', () => {
    OutsideHead.create(file, head(3)).close();
    truncateSync(file, 0);
    expect(() => readOutsideHead(file)).toThrow(LogDamaged);
  });
});

describe('what was acknowledged is on the disk', () => {
  /** Follows the outside head's calls, and looks at the files as they stand at each. */
  function watched(happened: string[]): Disk {
    return {
      write: (fd, bytes, at) => {
        happened.push(
          `head ${bytes.toString().split(' ')[2]} written when ${entriesInFiles()} are in the files`,
        );
        realDisk.write(fd, bytes, at);
      },
      sync: (fd) => {
        realDisk.sync(fd);
        happened.push('head synced');
      },
    };
  }

  /** What another process would find at this moment, were this one gone: counted in a copy of the files. */
  function entriesInFiles(): number {
    const copy = freshFolder();
    for (const name of ['log.db', 'log.db-wal']) copyFileSync(join(dir, name), join(copy, name));
    const db = new Database(join(copy, 'log.db'));
    const { n } = db.prepare('SELECT count(*) AS n FROM entries').get() as { n: number };
    db.close();
    rmSync(copy, { recursive: true });
    return n;
  }

  test('first the entries, then the outside head, then the answer', async () => {
    const happened: string[] = [];
    const log = await openLog({ dir, clock: steppingClock(), disk: watched(happened) });
    happened.length = 0;
    for (const n of [1, 2]) {
      await log.append(command(n, [begun('a'), begun('b')]));
      happened.push(`answered ${n}`);
    }
    await log.close();
    expect(happened).toEqual([
      'head 2 written when 2 are in the files',
      'head synced',
      'answered 1',
      'head 4 written when 4 are in the files',
      'head synced',
      'answered 2',
    ]);
  });

  test('if the outside head cannot be synced nothing is acknowledged, and sending again does it', async () => {
    let broken = false;
    const disk: Disk = {
      ...realDisk,
      sync: (fd) => {
        if (broken) throw new Error('the disk does not answer');
        realDisk.sync(fd);
      },
    };
    const log = await openLog({ dir, clock: steppingClock(), disk });
    await log.append(command(1, [begun('a')]));
    broken = true;
    const failed = log.append(command(2, [begun('b')]));
    await expect(failed).rejects.toBeInstanceOf(LogUnavailable);
    broken = false;
    expect(await log.append(command(2, [begun('b')]))).toEqual({ outcome: 'repeated', first: 2, last: 2 });
    expect(readOutsideHead(file)).toEqual(await log.head());
    await log.close();
  });
});

describe('when the log is opened', () => {
  async function withEntries(count: number): Promise<void> {
    const log = await openLog({ dir, clock: steppingClock() });
    for (let n = 1; n <= count; n++) await log.append(command(n, [begun(`p${n}`)]));
    await log.close();
  }

  test('entries committed but not yet acknowledged bring the outside head up', async () => {
    await withEntries(2);
    const behind = readFileSync(file);
    const log = await openLog({ dir, clock: steppingClock() });
    await log.append(command(3, [begun('p3')]));
    await log.close();
    writeFileSync(file, behind);
    const again = await openLog({ dir, clock: steppingClock() });
    expect(readOutsideHead(file)).toEqual(await again.head());
    expect(await again.verify()).toEqual({ entries: 3, head: await again.head() });
    await again.close();
  });

  test.each([
    ['ahead of the log', head(5), /3 entries, but 5 were acknowledged: the last 2 are missing/],
    ['of another log', head(3), /Entry 3 of the log is not the one/],
    ['of another log, further back', head(2), /Entry 2 of the log is not the one/],
  ])('an outside head %s is left as it is, and nothing more is taken', async (_, other, why) => {
    await withEntries(3);
    OutsideHead.create(file, other).close();
    const log = await openLog({ dir, clock: steppingClock() });
    const refused = log.append(command(9, [begun('late')]));
    await expect(refused).rejects.toBeInstanceOf(LogDamaged);
    await expect(log.append(command(9, [begun('late')]))).rejects.toThrow(why);
    expect(readOutsideHead(file)).toEqual(other);
    const verdict = await log.verify();
    expect(verdict.broken ?? verdict.missing).toBeDefined();
    expect((await log.read(0, 10)).length).toBe(3);
    await log.close();
  });

  test('a log whose outside head is gone takes nothing more, and verify says so', async () => {
    await withEntries(3);
    rmSync(file);
    const log = await openLog({ dir, clock: steppingClock() });
    await expect(log.append(command(9, [begun('late')]))).rejects.toThrow(/outside head .* is missing/);
    expect((await log.verify()).broken?.why).toBe('the outside head is missing');
    await log.close();
  });

  test('a log whose database is gone is not a new log', async () => {
    await withEntries(3);
    rmSync(join(dir, 'log.db'));
    const log = await openLog({ dir, clock: steppingClock() });
    await expect(log.append(command(9, [begun('late')]))).rejects.toThrow(/the last 3 are missing/);
    expect((await log.verify()).missing).toEqual({ expected: 3, found: 0 });
    await log.close();
  });
});
