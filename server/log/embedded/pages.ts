/** The embedded log's tables for `verify`, as they stood at one moment. */
import type { Head } from '../log.ts';
import { HEAD_SQL, type HeadRow, headFrom } from '../sql.ts';
import type { Pages, StreamRow } from '../verify.ts';
import * as ask from '../verify-sql.ts';
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

  async tables(): Promise<{ name: string; sql: string }[]> {
    return ask.tablesFrom(this.rows(ask.TABLES_SQL));
  }

  async head(): Promise<Head> {
    return headFrom(this.rows<HeadRow>(HEAD_SQL)[0]);
  }

  async entries(after: number, limit: number): Promise<EntryRow[]> {
    return this.rows<ask.RawEntry>(ask.ENTRIES_SQL, after, limit).map(ask.entryRow);
  }

  async streamRows(after: { stream: string; position: number }, limit: number): Promise<StreamRow[]> {
    return this.rows<ask.RawStreamRow>(ask.STREAM_ROWS_SQL, after.stream, after.position, limit).map(
      ask.streamRow,
    );
  }

  async unindexed(): Promise<number | undefined> {
    return this.rows<{ seq: number }>(ask.UNINDEXED_SQL)[0]?.seq;
  }

  async claims(limit: number): Promise<{ held: Map<string, number>; head: Head }> {
    return { held: ask.claimsFrom(this.rows(ask.CLAIMS_SQL, limit)), head: await this.head() };
  }

  private rows<T>(sql: string, ...values: (string | number)[]): T[] {
    return this.db.prepare(sql).all(...values) as T[];
  }

  close(): void {
    if (!this.snapshot) return;
    // A closed connection lives on until its statements are collected: it must not keep its snapshot.
    if (this.db.inTransaction) this.db.exec('ROLLBACK');
    this.db.close();
  }
}
