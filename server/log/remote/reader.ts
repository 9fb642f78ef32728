/** Reads of the log on a libsql server. */
import type { Client } from '@libsql/client/http';
import type { Entry } from '../../contract/entry.ts';
import { entryOf, type Sealed } from '../chain.ts';
import type { Reader } from '../home.ts';
import type { Head, Known, Stream } from '../log.ts';
import {
  COMMANDS_SQL,
  type CommandRow,
  HEAD_SQL,
  HELD_SQL,
  type HeadRow,
  type HeldRow,
  headFrom,
  heldFrom,
  knownFrom,
  PAGE_SQL,
  STREAMS_SQL,
} from '../sql.ts';
import { type Bytes, text } from '../text.ts';

export async function rowsOf<T>(client: Client, sql: string, args: (string | number)[] = []): Promise<T[]> {
  const { rows } = await client.execute({ sql, args });
  return rows as unknown as T[];
}

export class RemoteReader implements Reader {
  constructor(private readonly client: Client) {}

  async head(): Promise<Head> {
    return headFrom((await rowsOf<HeadRow>(this.client, HEAD_SQL))[0]);
  }

  async page(after: number, limit: number): Promise<Entry[]> {
    const [row] = await rowsOf<{ list: Bytes }>(this.client, PAGE_SQL, [after, limit]);
    return row === undefined || row.list === null
      ? []
      : (JSON.parse(text(row.list)) as Sealed[]).map(entryOf);
  }

  async streams(names: readonly string[]): Promise<Map<string, Stream>> {
    const found = new Map<string, Entry[]>(names.map((name) => [name, []]));
    const list = JSON.stringify([...found.keys()]);
    const rows = await rowsOf<{ stream: string; body: Bytes }>(this.client, STREAMS_SQL, [list]);
    for (const { stream, body } of rows) found.get(stream)!.push(entryOf(JSON.parse(text(body)) as Sealed));
    return new Map([...found].map(([name, entries]) => [name, { entries, version: entries.length }]));
  }

  async receipts(commands: readonly string[]): Promise<Map<string, Known>> {
    return knownFrom(await rowsOf<CommandRow>(this.client, COMMANDS_SQL, [JSON.stringify(commands)]));
  }

  async holders(claims: readonly string[]): Promise<Map<string, number>> {
    return heldFrom(await rowsOf<HeldRow>(this.client, HELD_SQL, [JSON.stringify(claims)]));
  }
}
