import { copyFileSync, existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { acceptLog, copyLog } from '../../server/log/copies.ts';
import { type EventLog, LogDamaged } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { begun, command } from '../support/appends.ts';
import { freshFolder, steppingClock } from '../support/log.ts';

let root: string;
let dir: string;
let log: EventLog;
beforeEach(async () => {
  root = freshFolder();
  dir = join(root, 'data');
  log = await openLog({ dir, clock: steppingClock() });
  await log.appendAll(
    Array.from({ length: 30 }, (_, n) => command(n, [begun(`p${n}`, { claims: [`mark:${n}`] })])),
  );
});
afterEach(async () => {
  await log.close();
  rmSync(root, { recursive: true, force: true });
});

test('a copy made while the log is open is a whole log, and goes on by itself', async () => {
  const to = join(root, 'copy');
  expect(copyLog(dir, to)).toEqual(await log.head());
  await log.append(command(100, [begun('later')]));
  const copy = await openLog({ dir: to, clock: steppingClock() });
  expect(await copy.verify()).toEqual({ entries: 30, head: await copy.head() });
  expect(await copy.read(0, 100)).toEqual(await log.read(0, 30));
  await copy.append(command(200, [begun('elsewhere')]));
  expect(await copy.verify()).toMatchObject({ entries: 31 });
  await copy.close();
  expect(() => copyLog(dir, to)).toThrow(/already/);
});

test('a log that has lost entries is not copied, but can be accepted as it is by the operator', async () => {
  const shorter = join(root, 'shorter');
  copyLog(dir, shorter);
  await log.append(command(100, [begun('later')]));
  await log.close();
  for (const name of ['log.db', 'log.db-wal', 'log.db-shm']) rmSync(join(dir, name), { force: true });
  copyFileSync(join(shorter, 'log.db'), join(dir, 'log.db'));
  expect(() => copyLog(dir, join(root, 'covers-up'))).toThrow(LogDamaged);
  expect(existsSync(join(root, 'covers-up', 'log.head'))).toBe(false);

  log = await openLog({ dir, clock: steppingClock() });
  await expect(log.append(command(101, [begun('more')]))).rejects.toThrow(/the last one is missing/);
  await log.close();
  expect(await acceptLog(dir)).toMatchObject({ entries: 30 });
  log = await openLog({ dir, clock: steppingClock() });
  expect(await log.append(command(101, [begun('more')]))).toEqual({
    outcome: 'recorded',
    first: 31,
    last: 31,
  });
  expect(await log.verify()).toEqual({ entries: 31, head: await log.head() });
});

test('a log whose chain is broken cannot be accepted', async () => {
  await log.close();
  const db = new Database(join(dir, 'log.db'));
  db.exec('DROP TRIGGER entries_no_update');
  db.exec(`UPDATE entries SET body = replace(body, 'mug', 'jug') WHERE seq = 7`);
  db.close();
  const before = await acceptLog(dir);
  expect(before.broken).toBeDefined();
  log = await openLog({ dir, clock: steppingClock() });
  expect((await log.verify()).broken).toEqual(before.broken);
});
