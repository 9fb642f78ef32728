/** The remote log's tables for `verify`; it may grow while it is walked. */
import type { Client } from '@libsql/client/http';
import type { Head } from '../log.ts';
import { HEAD_SQL, type HeadRow, headFrom } from '../sql.ts';
import type { Pages, StreamRow } from '../verify.ts';
import * as ask from '../verify-sql.ts';
import type { EntryRow } from '../walk.ts';
import { rowsOf } from './reader.ts';

export class RemotePages implements Pages {
  constructor(private readonly client: Client) {}

  async tables(): Promise<{ name: string; sql: string }[]> {
    return ask.tablesFrom(await rowsOf(this.client, ask.TABLES_SQL));
  }

  async head(): Promise<Head> {
    return headFrom((await rowsOf<HeadRow>(this.client, HEAD_SQL))[0]);
  }

  async entries(after: number, limit: number): Promise<EntryRow[]> {
    return (await rowsOf<ask.RawEntry>(this.client, ask.ENTRIES_SQL, [after, limit])).map(ask.entryRow);
  }

  async streamRows(after: { stream: string; position: number }, limit: number): Promise<StreamRow[]> {
    const from = [after.stream, after.position, limit];
    return (await rowsOf<ask.RawStreamRow>(this.client, ask.STREAM_ROWS_SQL, from)).map(ask.streamRow);
  }

  async unindexed(): Promise<number | undefined> {
    return (await rowsOf<{ seq: number }>(this.client, ask.UNINDEXED_SQL))[0]?.seq;
  }

  async claims(limit: number): Promise<{ held: Map<string, number>; head: Head }> {
    const [claims, head] = await this.client.batch(
      [{ sql: ask.CLAIMS_SQL, args: [limit] }, HEAD_SQL],
      'read',
    );
    const held = ask.claimsFrom(claims!.rows as unknown as ask.RawClaim[]);
    return { held, head: headFrom(head!.rows[0] as unknown as HeadRow | undefined) };
  }

  close(): void {
    // The client belongs to the log.
  }
}
