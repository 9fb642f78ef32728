/** Every released schema of the log is kept in tests/history and can be opened by this one. */
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'libsql';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { LogDamaged } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { MIGRATIONS } from '../../server/log/schema.ts';
import { begun, command } from '../support/appends.ts';
import { freshFolder, steppingClock } from '../support/log.ts';

const HISTORY = fileURLToPath(new URL('../history', import.meta.url));
const released = readdirSync(HISTORY).filter((name) => /^log-schema-\d+\.sql$/.test(name));

let dir: string;
beforeEach(() => {
  dir = freshFolder();
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

function dump(file: string): string {
  const db = new Database(file);
  const rows = db.prepare('SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY name').all() as {
    sql: string;
  }[];
  db.close();
  return rows.map(({ sql }) => `${sql};\n`).join('\n');
}

test('the newest schema is the one kept last', async () => {
  await (await openLog({ dir, clock: steppingClock() })).close();
  expect(released.length).toBe(MIGRATIONS.length);
  const kept = readFileSync(join(HISTORY, `log-schema-${MIGRATIONS.length}.sql`), 'utf8');
  expect(dump(join(dir, 'log.db'))).toBe(kept);
});

test.each(released)('a log made with %s is brought up and written on', async (name) => {
  const db = new Database(join(dir, 'log.db'));
  db.exec(readFileSync(join(HISTORY, name), 'utf8'));
  db.exec(`PRAGMA user_version = ${/\d+/.exec(name)![0]}`);
  db.close();
  const log = await openLog({ dir, clock: steppingClock() });
  await log.append(command(1, [begun('a')]));
  expect(await log.verify()).toEqual({ entries: 1, head: await log.head() });
  await log.close();
});

test('a log of a newer Wareboard is left alone', async () => {
  await (await openLog({ dir, clock: steppingClock() })).close();
  const db = new Database(join(dir, 'log.db'));
  db.exec('PRAGMA user_version = 99');
  db.close();
  await expect(openLog({ dir, clock: steppingClock() })).rejects.toThrow(
    new LogDamaged(
      `The log was written by a newer Wareboard (its tables are of version 99, this one knows ${MIGRATIONS.length}).`,
    ),
  );
});
