import { copyFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { acceptLog } from '../../server/log/accept.ts';
import type { EventLog } from '../../server/log/log.ts';
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

test('a log that has lost entries takes no more, until the operator accepts it as it is', async () => {
  const shorter = join(root, 'shorter.db');
  const source = new Database(join(dir, 'log.db'));
  source.prepare('VACUUM INTO ?').run(shorter);
  source.close();
  await log.append(command(100, [begun('later')]));
  await log.close();
  for (const name of ['log.db', 'log.db-wal', 'log.db-shm']) rmSync(join(dir, name), { force: true });
  copyFileSync(shorter, join(dir, 'log.db'));

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
