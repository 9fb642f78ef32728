/** Whatever is changed or cut off in the files is reported, never passed over. */
import { copyFileSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { openLog } from '../../server/log/open.ts';
import { steppingClock } from '../support/log.ts';
import { seeded } from '../support/seeded.ts';
import { COMMANDS, cutEach, flipEach, type Kept, look, Samples } from './damage.ts';

// Hundreds of logs are opened here; seconds on a free machine, but others may use this one too.
vi.setConfig({ testTimeout: 180_000 });

const samples = new Samples();
let closed: Kept;
let open: Kept;
beforeAll(async () => {
  ({ open, closed } = await samples.make());
});
afterAll(() => samples.end());

const bytesOf = (kept: Kept, name: string) => readFileSync(join(kept.dir, name));

function occurrences(bytes: Buffer, text: string): number[] {
  const found: number[] = [];
  for (let at = bytes.indexOf(text); at >= 0; at = bytes.indexOf(text, at + 1)) found.push(at);
  return found;
}

function somewhere(seed: number, size: number, times: number): number[] {
  const random = seeded(seed);
  return Array.from({ length: times }, () => Math.floor(random() * size));
}

describe('a flipped byte', () => {
  // A name stands in a body, in an index, and it may be in the dead part of a page, where it harms nobody.
  test.each([
    ['a command', COMMANDS[3]!.command],
    ['a stream', 'piece:p3'],
    ['a claim', 'mark:p3'],
  ])('in %s, in the body and in the index, is named', async (_, name) => {
    const places = occurrences(bytesOf(closed, 'log.db'), name).map((at) => at + 6);
    const { reported, passedOver } = await flipEach(samples, closed, 'log.db', places);
    expect(passedOver).toEqual([]);
    expect(reported.broken).toBeGreaterThanOrEqual(2);
  });

  test('in the data of any entry, and in any hash, is named', async () => {
    const bytes = bytesOf(closed, 'log.db');
    const last = JSON.parse(closed.all)[3] as { hash: string };
    const hashes = await flipEach(samples, closed, 'log.db', occurrences(bytes, last.hash));
    expect(hashes.reported.broken).toBeGreaterThanOrEqual(1);
    const data = occurrences(bytes, '"form":"mug"').map((at) => at + 9);
    const forms = await flipEach(samples, closed, 'log.db', data);
    expect(forms.reported.broken).toBeGreaterThanOrEqual(16);
    expect([...hashes.passedOver, ...forms.passedOver]).toEqual([]);
  });

  test('anywhere in the database is reported, or changes nothing for anybody', async () => {
    const places = somewhere(20260501, bytesOf(closed, 'log.db').length, 120);
    const { reported, passedOver } = await flipEach(samples, closed, 'log.db', places);
    expect(passedOver).toEqual([]);
    expect(reported.broken).toBeGreaterThan(0);
  });

  test('anywhere in the write-ahead file is reported', async () => {
    const places = somewhere(20260502, bytesOf(open, 'log.db-wal').length, 50);
    const { reported, passedOver } = await flipEach(samples, open, 'log.db-wal', places);
    expect(passedOver).toEqual([]);
    expect(reported.missing).toBeGreaterThan(35);
  });
});

test('a write-ahead file cut at every frame, and in the middle of every frame, is reported', async () => {
  const { tried, reported } = await cutEach(samples, open);
  expect(tried).toBeGreaterThan(2 * COMMANDS.length);
  expect(reported).toEqual({ missing: tried });
  const whole = await look(samples.copy(open.dir), open.all);
  expect(whole).toMatchObject({ opened: true, same: true, verdict: { entries: 16 } });
});

test('a removed trigger is reported', async () => {
  const dir = samples.copy(closed.dir);
  const db = new Database(join(dir, 'log.db'));
  db.exec('DROP TRIGGER entries_no_update');
  db.close();
  const broken = { seq: 0, why: expect.stringContaining('entries_no_update') };
  expect(await look(dir, closed.all)).toMatchObject({ verdict: { broken } });
});

describe('an entry changed by somebody who knows the tables', () => {
  const changes: [what: string, sql: string, seq: number, why: RegExp][] = [
    [
      'its body',
      `UPDATE entries SET body = replace(body, 'mug', 'jug') WHERE seq = 5`,
      5,
      /body and its hash/,
    ],
    ['its hash', `UPDATE entries SET hash = '${'0'.repeat(64)}' WHERE seq = 5`, 5, /body and its hash/],
    ['removed from the middle', 'DELETE FROM entries WHERE seq = 5', 5, /missing: entry 6 comes next/],
    ['its command', `UPDATE entries SET command = 'other' WHERE seq = 5`, 5, /another command/],
    [
      'a place in a stream',
      `UPDATE stream_entries SET seq = 7 WHERE stream = 'firing:9' AND position = 3`,
      7,
      /out of order/,
    ],
    [
      'taken out of a stream',
      `DELETE FROM stream_entries WHERE stream = 'piece:q2'`,
      6,
      /missing from the index/,
    ],
    [
      'put in a stream',
      `INSERT INTO stream_entries VALUES ('piece:none', 1, 3)`,
      3,
      /which it does not name/,
    ],
    ['a claim given to another', `UPDATE claims SET seq = 3 WHERE claim = 'mark:p3'`, 7, /table of claims/],
    ['a claim taken away', `DELETE FROM claims WHERE claim = 'mark:p3'`, 7, /table of claims/],
    ['a claim invented', `INSERT INTO claims VALUES ('mark:none', 3)`, 3, /which it does not hold/],
  ];

  function withoutTriggers(dir: string, sql: string): void {
    const db = new Database(join(dir, 'log.db'));
    const triggers = db.prepare(`SELECT name, sql FROM sqlite_master WHERE type = 'trigger'`).all() as {
      name: string;
      sql: string;
    }[];
    for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`);
    db.exec('PRAGMA foreign_keys = OFF');
    db.exec(sql);
    for (const trigger of triggers) db.exec(trigger.sql);
    db.close();
  }

  test.each(changes)('%s: it is named, and how', async (_, sql, seq, why) => {
    const dir = samples.copy(closed.dir);
    withoutTriggers(dir, sql);
    const broken = { seq, why: expect.stringMatching(why) };
    expect(await look(dir, closed.all)).toMatchObject({ verdict: { broken } });
  });

  test('a chain that was forged to its end does not fit the outside head', async () => {
    const dir = samples.folder();
    const log = await openLog({ dir, clock: steppingClock() });
    for (const one of COMMANDS) await log.append({ ...one, who: 'somebody else' });
    await log.close();
    copyFileSync(join(closed.dir, 'log.head'), join(dir, 'log.head'));
    const broken = { seq: 16, why: expect.stringContaining('acknowledged') };
    expect(await look(dir, closed.all)).toMatchObject({ verdict: { broken } });
  });
});
