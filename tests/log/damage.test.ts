/** Whatever is changed or cut off in the files is reported, never passed over. */
import { copyFileSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type EventLog, LogDamaged, type Verdict } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { begun, command } from '../support/appends.ts';
import { freshFolder, steppingClock } from '../support/log.ts';
import { seeded } from '../support/seeded.ts';

const FILES = ['log.db', 'log.db-wal', 'log.head'];
const COMMANDS = Array.from({ length: 8 }, (_, n) =>
  command(n, [
    begun(`p${n}`, { streams: [`piece:p${n}`, 'firing:9'], claims: [`mark:p${n}`] }),
    begun(`q${n}`),
  ]),
);

/** A folder with the log's files as they stand: `cut` while the log is still open, so with its write-ahead file. */
interface Kept {
  readonly dir: string;
  readonly all: string;
}
let closed: Kept;
let cut: Kept;
const folders: string[] = [];

function folder(): string {
  const dir = freshFolder();
  folders.push(dir);
  return dir;
}

function copy(from: string): string {
  const to = folder();
  for (const name of FILES) if (existsSync(join(from, name))) copyFileSync(join(from, name), join(to, name));
  return to;
}

/** Everything that can be read out of the log. */
async function contents(log: EventLog): Promise<string> {
  const entries = await log.read(0, 1000);
  const streams = await log.streams([...new Set(entries.flatMap((entry) => entry.streams)), 'piece:none']);
  const receipts = await Promise.all(COMMANDS.map((it) => log.receipt(it.command)));
  return JSON.stringify([entries, [...streams], receipts, await log.head()]);
}

beforeAll(async () => {
  const dir = folder();
  const log = await openLog({ dir, clock: steppingClock() });
  for (const one of COMMANDS) await log.append(one);
  const all = await contents(log);
  cut = { dir: copy(dir), all };
  await log.close();
  closed = { dir: copy(dir), all };
});
afterAll(() => {
  for (const dir of folders) rmSync(dir, { recursive: true, force: true });
});

type Found = { opened: false; error: unknown } | { opened: true; verdict: Verdict; same: boolean };

async function look(dir: string, all: string): Promise<Found> {
  let log: EventLog;
  try {
    log = await openLog({ dir, clock: steppingClock() });
  } catch (error) {
    return { opened: false, error };
  }
  const verdict = await log.verify();
  const sound = verdict.broken === undefined && verdict.missing === undefined;
  const same = sound && (await contents(log)) === all;
  await log.close();
  rmSync(dir, { recursive: true, force: true });
  return { opened: true, verdict, same };
}

/** Reported, or nothing at all has changed for anybody who reads. */
function expectReported(found: Found, what: string): 'refused' | 'broken' | 'missing' | 'harmless' {
  if (!found.opened) {
    expect(found.error, what).toBeInstanceOf(LogDamaged);
    return 'refused';
  }
  if (found.verdict.broken) return 'broken';
  if (found.verdict.missing) return 'missing';
  expect(found.same, `${what} was passed over`).toBe(true);
  return 'harmless';
}

async function flipEach(kept: Kept, name: string, places: Iterable<number>): Promise<Record<string, number>> {
  const bytes = readFileSync(join(kept.dir, name));
  const tally: Record<string, number> = {};
  for (const place of places) {
    const dir = copy(kept.dir);
    const flipped = Buffer.from(bytes);
    flipped[place] = flipped[place]! ^ (1 << (place % 8));
    writeFileSync(join(dir, name), flipped);
    const how = expectReported(await look(dir, kept.all), `${name}: byte ${place}`);
    tally[how] = (tally[how] ?? 0) + 1;
  }
  return tally;
}

function* occurrences(bytes: Buffer, text: string): Iterable<number> {
  for (let at = bytes.indexOf(text); at >= 0; at = bytes.indexOf(text, at + 1)) yield at;
}

describe('a flipped byte', () => {
  // A name stands in a body, in an index, and it may be in the dead part of a page, where it harms nobody.
  test.each([
    ['a command', COMMANDS[3]!.command],
    ['a stream', 'piece:p3'],
    ['a claim', 'mark:p3'],
  ])('in %s, in the body and in the index, is named', async (_, name) => {
    const places = [...occurrences(readFileSync(join(closed.dir, 'log.db')), name)].map((at) => at + 6);
    const tally = await flipEach(closed, 'log.db', places);
    expect(tally.broken).toBeGreaterThanOrEqual(2);
  });

  test('in the data of any entry, and in any hash, is named', async () => {
    const bytes = readFileSync(join(closed.dir, 'log.db'));
    const last = JSON.parse(closed.all)[3] as { hash: string };
    const hashes = [...occurrences(bytes, last.hash)];
    const data = [...occurrences(bytes, '"form":"mug"')].map((at) => at + 9);
    expect((await flipEach(closed, 'log.db', hashes)).broken).toBeGreaterThanOrEqual(1);
    expect((await flipEach(closed, 'log.db', data)).broken).toBeGreaterThanOrEqual(16);
  });

  test('anywhere in the database is reported, or changes nothing for anybody', async () => {
    const random = seeded(20260501);
    const size = readFileSync(join(closed.dir, 'log.db')).length;
    const tally = await flipEach(
      closed,
      'log.db',
      Array.from({ length: 250 }, () => Math.floor(random() * size)),
    );
    expect(tally.broken).toBeGreaterThan(0);
  });

  test('anywhere in the write-ahead file is reported', async () => {
    const random = seeded(20260502);
    const size = readFileSync(join(cut.dir, 'log.db-wal')).length;
    const tally = await flipEach(
      cut,
      'log.db-wal',
      Array.from({ length: 120 }, () => Math.floor(random() * size)),
    );
    expect(tally.missing).toBeGreaterThan(100);
  });
});

test('a write-ahead file cut at every frame, and in the middle of every frame, is reported', async () => {
  const wal = readFileSync(join(cut.dir, 'log.db-wal'));
  // SQLite file format, section 4.1: a header of 32 bytes, then frames of 24 bytes and a page each.
  const frame = 24 + wal.readUInt32BE(8);
  const frames = (wal.length - 32) / frame;
  expect(Number.isInteger(frames) && frames > COMMANDS.length).toBe(true);
  const lengths = [
    0,
    16,
    ...Array.from({ length: frames }, (_, n) => [32 + n * frame, 32 + n * frame + frame / 2]).flat(),
  ];
  for (const length of lengths) {
    const dir = copy(cut.dir);
    writeFileSync(join(dir, 'log.db-wal'), wal.subarray(0, length));
    const found = await look(dir, cut.all);
    expect(found, `cut to ${length} bytes`).toMatchObject({
      opened: true,
      verdict: { missing: { expected: 16 } },
    });
  }
  expect(await look(copy(cut.dir), cut.all)).toMatchObject({
    opened: true,
    same: true,
    verdict: { entries: 16 },
  });
});

test('a removed trigger is reported', async () => {
  const dir = copy(closed.dir);
  const db = new Database(join(dir, 'log.db'));
  db.exec('DROP TRIGGER entries_no_update');
  db.close();
  expect(await look(dir, closed.all)).toMatchObject({
    verdict: { broken: { seq: 0, why: expect.stringContaining('entries_no_update') } },
  });
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
      /missing from the index of a stream/,
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
  test.each(changes)('%s: it is named, and how', async (_, sql, seq, why) => {
    const dir = copy(closed.dir);
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
    expect(await look(dir, closed.all)).toMatchObject({
      verdict: { broken: { seq, why: expect.stringMatching(why) } },
    });
  });

  test('a chain that was forged to its end does not fit the outside head', async () => {
    const dir = folder();
    const log = await openLog({ dir, clock: steppingClock() });
    for (const one of COMMANDS) await log.append({ ...one, who: 'somebody else' });
    await log.close();
    copyFileSync(join(closed.dir, 'log.head'), join(dir, 'log.head'));
    expect(await look(dir, closed.all)).toMatchObject({
      verdict: { broken: { seq: 16, why: expect.stringContaining('acknowledged') } },
    });
  });
});
