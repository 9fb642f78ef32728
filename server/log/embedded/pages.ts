/** The embedded log's tables for `verify`, as they stood at one moment. */
import type { Head } from '../log.ts';
import { HEAD_SQL, headFrom } from '../sql.ts';
import type { Pages, StreamRow } from '../verify.ts';
import { CLAIMS_SQL, ENTRIES_SQL, STREAM_ROWS_SQL, UNINDEXED_SQL } from '../verify-sql.ts';
import type { EntryRow } from '../walk.ts';
import type { Connection } from './connection.ts';

export class EmbeddedPages implements Pages {
  /** @param snapshot a connection of its own, closed at the end; a log in memory has only the one */
  constructor(
    private readonly db: Connection,
    private readonly snapshot: boolean,
  ) {
    if (snapshot) db.exec('BEGIN');
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
    return {
      held: new Map(rows.map(({ claim, seq }) => [claim, seq])),
      head: headFrom(this.db.prepare(HEAD_SQL).get() as Head | undefined),
    };
  }

  close(): void {
    if (this.snapshot) this.db.close();
  }
}
