/** The embedded log's tables for `verify`, as they stood at one moment. */
import type { Head } from '../log.ts';
import type { Pages, StreamRow } from '../verify.ts';
import type { EntryRow } from '../walk.ts';
import type { Connection } from './connection.ts';
import { headOf } from './statements.ts';

/** With INDEXED BY, so that the index itself is looked at and not only the table. */
export const ENTRIES_SQL = `SELECT e.seq AS seq, e.command AS command, e.part AS part, e.body AS body, e.hash AS hash,
  (SELECT i.seq FROM entries AS i INDEXED BY sqlite_autoindex_entries_1
   WHERE i.command = e.command AND i.part = e.part) AS indexed
  FROM entries AS e WHERE e.seq > ? ORDER BY e.seq LIMIT ?`;

export const STREAM_ROWS_SQL = `SELECT s.stream AS stream, s.position AS position, s.seq AS seq,
  EXISTS (SELECT 1 FROM entries AS e, json_each(e.body, '$.streams') AS n WHERE e.seq = s.seq AND n.value = s.stream) AS named
  FROM stream_entries AS s WHERE (s.stream, s.position) > (?, ?) ORDER BY s.stream, s.position LIMIT ?`;

export const UNINDEXED_SQL = `SELECT e.seq AS seq FROM entries AS e, json_each(e.body, '$.streams') AS n
  WHERE NOT EXISTS (SELECT 1 FROM stream_entries AS s WHERE s.stream = n.value AND s.seq = e.seq)
  ORDER BY e.seq LIMIT 1`;

export const CLAIMS_SQL = 'SELECT claim, seq FROM claims';

export class EmbeddedPages implements Pages {
  /** @param snapshot a connection of its own, closed at the end; a log in memory has only the one */
  constructor(
    private readonly db: Connection,
    private readonly snapshot: boolean,
  ) {
    if (snapshot) db.exec('BEGIN');
  }

  async head(): Promise<Head> {
    return headOf(this.db)();
  }

  async entries(after: number, limit: number): Promise<EntryRow[]> {
    return this.db.prepare(ENTRIES_SQL).all(after, limit) as EntryRow[];
  }

  async streamRows(after: { stream: string; position: number }, limit: number): Promise<StreamRow[]> {
    const rows = this.db.prepare(STREAM_ROWS_SQL).all(after.stream, after.position, limit) as StreamRow[];
    return rows.map((row) => ({ ...row, named: Boolean(row.named) }));
  }

  async unindexed(): Promise<number | undefined> {
    return (this.db.prepare(UNINDEXED_SQL).get() as { seq: number } | undefined)?.seq;
  }

  async claims(): Promise<{ held: Map<string, number>; head: Head }> {
    const rows = this.db.prepare(CLAIMS_SQL).all() as { claim: string; seq: number }[];
    return { held: new Map(rows.map(({ claim, seq }) => [claim, seq])), head: await this.head() };
  }

  close(): void {
    if (this.snapshot) this.db.close();
  }
}
