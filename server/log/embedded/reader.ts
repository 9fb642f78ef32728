/** Reads of the embedded log on a connection of its own, which the write-ahead file keeps apart from the writer. */
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
import type { Connection } from './connection.ts';

export class EmbeddedReader implements Reader {
  private readonly statements;

  constructor(db: Connection) {
    this.statements = {
      head: db.prepare(HEAD_SQL),
      page: db.prepare(PAGE_SQL),
      streams: db.prepare(STREAMS_SQL),
      commands: db.prepare(COMMANDS_SQL),
      held: db.prepare(HELD_SQL),
    };
  }

  async head(): Promise<Head> {
    return headFrom(this.statements.head.get() as HeadRow | undefined);
  }

  async page(after: number, limit: number): Promise<Entry[]> {
    const { list } = this.statements.page.get(after, limit) as { list: Bytes };
    return list === null ? [] : (JSON.parse(text(list)) as Sealed[]).map(entryOf);
  }

  async streams(names: readonly string[]): Promise<Map<string, Stream>> {
    const found = new Map<string, Entry[]>(names.map((name) => [name, []]));
    const rows = this.statements.streams.all(JSON.stringify([...found.keys()])) as {
      stream: string;
      body: Bytes;
    }[];
    for (const { stream, body } of rows) found.get(stream)!.push(entryOf(JSON.parse(text(body)) as Sealed));
    return new Map([...found].map(([name, entries]) => [name, { entries, version: entries.length }]));
  }

  async receipts(commands: readonly string[]): Promise<Map<string, Known>> {
    return knownFrom(this.statements.commands.all(JSON.stringify(commands)) as CommandRow[]);
  }

  async holders(claims: readonly string[]): Promise<Map<string, number>> {
    return heldFrom(this.statements.held.all(JSON.stringify(claims)) as HeldRow[]);
  }
}
