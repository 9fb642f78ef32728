/**
 * The bare loop that the log is measured against: prepared statements of the libsql package's
 * synchronous interface, the same rows and hashes, the same outside head synced, and no checks at all.
 */
import { hash } from 'node:crypto';
import { closeSync, fdatasyncSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import type { Append } from '../../server/log/log.ts';

const TABLES = [
  `CREATE TABLE entries (seq INTEGER PRIMARY KEY, command TEXT NOT NULL, part INTEGER NOT NULL,
    body TEXT NOT NULL, hash TEXT NOT NULL, UNIQUE (command, part)) STRICT`,
  `CREATE TABLE stream_entries (stream TEXT NOT NULL, position INTEGER NOT NULL, seq INTEGER NOT NULL,
    PRIMARY KEY (stream, position)) STRICT, WITHOUT ROWID`,
];

export class Bare {
  private readonly db: Database.Database;
  private readonly head: number;
  private readonly entry;
  private readonly index;
  private seq = 0;
  private previous = '0'.repeat(64);
  private readonly positions = new Map<string, number>();

  constructor(dir: string) {
    this.db = new Database(join(dir, 'bare.db'));
    for (const sql of ['PRAGMA journal_mode = WAL', 'PRAGMA synchronous = FULL', ...TABLES])
      this.db.exec(sql);
    this.entry = this.db.prepare('INSERT INTO entries VALUES (?, ?, ?, ?, ?)');
    this.index = this.db.prepare('INSERT INTO stream_entries VALUES (?, ?, ?)');
    this.head = openSync(join(dir, 'bare.head'), 'w');
  }

  /** All of them in one transaction. */
  write(appends: readonly Append[]): void {
    this.db.exec('BEGIN IMMEDIATE');
    const recordedAt = new Date().toISOString();
    for (const append of appends) this.insert(append, recordedAt);
    this.db.exec('COMMIT');
    const line = Buffer.from(`wareboard-head 1 ${this.seq} ${this.previous} ${this.previous}\n`);
    writeSync(this.head, line, 0, line.length, (this.seq % 2) * 4096);
    fdatasyncSync(this.head);
  }

  private insert({ command, fingerprint, who, device, entries }: Append, recordedAt: string): void {
    for (let part = 0; part < entries.length; part++) {
      const { data, happenedAt, name, streams, version } = entries[part]!;
      this.seq += 1;
      const seq = this.seq;
      const { previous } = this;
      const body = JSON.stringify({
        command,
        data,
        device,
        fingerprint: part === 0 ? fingerprint : undefined,
        happenedAt,
        name,
        part,
        previous,
        recordedAt,
        seq,
        streams,
        version,
        who,
      });
      this.previous = hash('sha256', body, 'hex');
      this.entry.run(seq, command, part, body, this.previous);
      for (const stream of streams) {
        const position = (this.positions.get(stream) ?? 0) + 1;
        this.positions.set(stream, position);
        this.index.run(stream, position, seq);
      }
    }
  }

  /** Scans and parses every entry; returns how many. */
  read(): number {
    let count = 0;
    const rows = this.db.prepare('SELECT body FROM entries ORDER BY seq').iterate() as Iterable<{
      body: string;
    }>;
    for (const { body } of rows) if ((JSON.parse(body) as { seq: number }).seq > 0) count += 1;
    return count;
  }

  close(): void {
    this.db.close();
    closeSync(this.head);
  }
}
