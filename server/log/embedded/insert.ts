/** Puts sealed rows into the tables, many in one statement: each call to the driver costs as much as a small row. */
import type { Row } from '../judge.ts';
import type { Connection } from './connection.ts';

type Value = string | number;
type Statement = ReturnType<Connection['prepare']>;

const ROWS_AT_ONCE = 50;

class Table {
  private readonly one;
  private many: Statement | undefined;
  private values: Value[] = [];

  constructor(
    private readonly db: Connection,
    private readonly table: string,
    private readonly columns: number,
  ) {
    this.one = this.statement(1);
  }

  private statement(rows: number): Statement {
    const row = `(${Array(this.columns).fill('?').join(', ')})`;
    return this.db.prepare(`INSERT INTO ${this.table} VALUES ${Array(rows).fill(row).join(', ')}`);
  }

  add(...values: Value[]): void {
    for (const value of values) this.values.push(value);
  }

  flush(): void {
    const { values, columns } = this;
    this.values = [];
    let at = 0;
    for (; values.length - at >= ROWS_AT_ONCE * columns; at += ROWS_AT_ONCE * columns) {
      this.many ??= this.statement(ROWS_AT_ONCE);
      this.many.run(values.slice(at, at + ROWS_AT_ONCE * columns));
    }
    for (; at < values.length; at += columns) this.one.run(values.slice(at, at + columns));
  }

  /** Forgets what a failed transaction had not yet flushed. */
  clear(): void {
    this.values = [];
  }
}

export class Inserter {
  private readonly entries: Table;
  private readonly streams: Table;
  private readonly claims: Table;
  private readonly release;

  constructor(db: Connection) {
    this.entries = new Table(db, 'entries (seq, command, part, body, hash)', 5);
    this.streams = new Table(db, 'stream_entries (stream, position, seq)', 3);
    this.claims = new Table(db, 'claims (claim, seq)', 2);
    this.release = db.prepare('DELETE FROM claims WHERE claim = ?');
  }

  insert(rows: readonly Row[]): void {
    this.clear();
    for (const row of rows) {
      this.entries.add(row.seq, row.command, row.part, row.body, row.hash);
      for (const [stream, position] of row.streams) this.streams.add(stream, position, row.seq);
      if (row.released.length > 0) {
        // The database lets a claim go only while the entry that gives it up is the newest.
        this.flush();
        for (const claim of row.released) this.release.run(claim);
      }
      for (const claim of row.claimed) this.claims.add(claim, row.seq);
    }
    this.flush();
  }

  private flush(): void {
    this.entries.flush();
    this.streams.flush();
    this.claims.flush();
  }

  private clear(): void {
    this.entries.clear();
    this.streams.clear();
    this.claims.clear();
  }
}
