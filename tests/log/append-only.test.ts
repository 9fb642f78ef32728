/** The database itself keeps what was recorded, whoever writes to it. */

import { join } from 'node:path';
import Database from 'libsql';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { connectReadOnly } from '../../server/log/embedded/connection.ts';
import { Writer } from '../../server/log/embedded/writer.ts';
import { begun, command } from '../support/appends.ts';
import { memoryishLog, type TestLog } from '../support/log.ts';

let home: TestLog;
let db: Database.Database;
beforeEach(async () => {
  home = await memoryishLog();
  await home.log.append(command(1, [begun('a', { claims: ['mark:a'] }), begun('b')]));
  db = new Database(join(home.dir!, 'log.db'));
});
afterEach(async () => {
  db.close();
  await home.end();
});

const forged = (seq: number, id: string, previous: string) =>
  `(${seq}, '${id}', 0, '{"previous":"${previous}"}', 'x')`;

describe('the tables take nothing back', () => {
  test.each([
    ['changing an entry', `UPDATE entries SET body = '{}' WHERE seq = 1`],
    ['removing an entry', 'DELETE FROM entries WHERE seq = 2'],
    ['removing all entries', 'DELETE FROM entries'],
    [
      'putting another entry in the place of one',
      `INSERT OR REPLACE INTO entries VALUES ${forged(2, 'x', '')}`,
    ],
    [
      'putting another entry in the place of its command',
      `REPLACE INTO entries VALUES (3, '01968a00-0000-7000-8000-000000000001', 0, '{}', 'x')`,
    ],
    [
      'an upsert',
      `INSERT INTO entries VALUES ${forged(1, 'x', '')} ON CONFLICT (seq) DO UPDATE SET body = '{}'`,
    ],
    ['leaving a gap', `INSERT INTO entries VALUES ${forged(4, 'x', '')}`],
    [
      'an entry that does not carry on from the last',
      `INSERT INTO entries VALUES ${forged(3, 'x', '0'.repeat(64))}`,
    ],
    ['an entry without a body', `INSERT INTO entries VALUES (3, 'x', 0, 'no json', 'x')`],
    ['changing a stream', `UPDATE stream_entries SET position = 9`],
    ['removing from a stream', 'DELETE FROM stream_entries'],
    ['replacing a place in a stream', `INSERT OR REPLACE INTO stream_entries VALUES ('piece:a', 1, 2)`],
    ['a gap in a stream', `INSERT INTO stream_entries VALUES ('piece:a', 3, 2)`],
    ['a stream that leads nowhere', `INSERT INTO stream_entries VALUES ('piece:a', 2, 77)`],
    ['changing a claim', 'UPDATE claims SET seq = 2'],
    ['taking a claim from its holder', `INSERT OR REPLACE INTO claims VALUES ('mark:a', 2)`],
    ['giving up a claim that no entry gives up', `DELETE FROM claims WHERE claim = 'mark:a'`],
  ])('%s is refused', async (_, sql) => {
    db.exec('PRAGMA foreign_keys = ON');
    expect(() => db.exec(sql)).toThrow(/append-only|held already|only given up|malformed JSON|FOREIGN KEY/);
    expect(await home.log.verify()).toEqual({ entries: 2, head: await home.log.head() });
  });
});

describe('the PRAGMAs hold on every connection', () => {
  const pragma = (connection: Database.Database, name: string) =>
    Object.values(connection.prepare(`PRAGMA ${name}`).all()[0] as object)[0];

  test('on the one that writes, also after it had to connect again', () => {
    const writer = new Writer({
      file: join(home.dir!, 'log.db'),
      headFile: join(home.dir!, 'log.head'),
      busyTimeout: 1,
    });
    const held = () =>
      ['journal_mode', 'synchronous', 'foreign_keys', 'busy_timeout'].map((it) =>
        pragma(writer.connection, it),
      );
    expect(held()).toEqual(['wal', 2, 1, 1]);
    db.exec('BEGIN IMMEDIATE');
    expect(() => writer.write([], '2026-05-01T09:00:00.000Z')).toThrow(/locked/);
    db.exec('ROLLBACK');
    expect(held()).toEqual(['wal', 2, 1, 1]);
    writer.close();
  });

  test('and on the one that reads, which cannot write', () => {
    const reader = connectReadOnly(join(home.dir!, 'log.db'));
    expect(
      ['journal_mode', 'synchronous', 'foreign_keys', 'busy_timeout', 'query_only'].map((it) =>
        pragma(reader, it),
      ),
    ).toEqual(['wal', 2, 1, 5000, 1]);
    expect(() => reader.exec(`INSERT INTO entries VALUES ${forged(3, 'x', '')}`)).toThrow(
      /readonly|read-only/,
    );
    reader.close();
  });

  test('while a connection made without them waits for nobody', () => {
    expect(pragma(db, 'busy_timeout')).toBe(0);
  });
});
