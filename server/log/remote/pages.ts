/** The remote log's tables for `verify`; it may grow while it is walked. */
import type { Client } from '@libsql/client/http';
import type { Head } from '../log.ts';
import { HEAD_SQL, headFrom } from '../sql.ts';
import type { Pages, StreamRow } from '../verify.ts';
import { CLAIMS_SQL, ENTRIES_SQL, STREAM_ROWS_SQL, UNINDEXED_SQL } from '../verify-sql.ts';
import type { EntryRow } from '../walk.ts';
import { rowsOf } from './reader.ts';

export class RemotePages implements Pages {
  constructor(private readonly client: Client) {}

  async entries(after: number, limit: number): Promise<EntryRow[]> {
    return rowsOf<EntryRow>(this.client, ENTRIES_SQL, [after, limit]);
  }

  async streamRows(after: { stream: string; position: number }, limit: number): Promise<StreamRow[]> {
    const rows = await rowsOf<StreamRow>(this.client, STREAM_ROWS_SQL, [after.stream, after.position, limit]);
    return rows.map(({ stream, position, seq, named }) => ({ stream, position, seq, named: Boolean(named) }));
  }

  async unindexed(): Promise<number | undefined> {
    return (await rowsOf<{ seq: number }>(this.client, UNINDEXED_SQL))[0]?.seq;
  }

  async claims(): Promise<{ held: Map<string, number>; head: Head }> {
    const [claims, head] = await this.client.batch([CLAIMS_SQL, HEAD_SQL], 'read');
    const rows = claims!.rows as unknown as { claim: string; seq: number }[];
    const held = new Map(rows.map(({ claim, seq }) => [claim, seq]));
    return { held, head: headFrom(head!.rows[0] as unknown as Head | undefined) };
  }

  close(): void {
    // The client belongs to the log.
  }
}
