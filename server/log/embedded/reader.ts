/** Reads of the embedded log on a connection of its own, which the write-ahead file keeps apart from the writer. */
import type { Entry } from '../../contract/entry.ts';
import { entryOf, type Sealed } from '../chain.ts';
import type { Head, Receipt, Stream } from '../log.ts';
import type { Connection } from './connection.ts';
import { COMMANDS_SQL, headOf } from './statements.ts';

/** Entries fetched as one JSON list, which is quicker than row by row; more would only take memory. */
const PAGE = 1000;

export class Reader {
  readonly head: () => Head;
  private readonly statements;

  constructor(db: Connection) {
    this.head = headOf(db);
    this.statements = {
      page: db.prepare(`SELECT '[' || group_concat(body, ',') || ']' AS list
        FROM (SELECT body FROM entries WHERE seq > ? ORDER BY seq LIMIT ?)`),
      streams: db.prepare(`SELECT s.stream AS stream, e.body AS body
        FROM json_each(?) AS n JOIN stream_entries AS s ON s.stream = n.value JOIN entries AS e ON e.seq = s.seq
        ORDER BY s.stream, s.position`),
      commands: db.prepare(COMMANDS_SQL),
    };
  }

  read(after: number, limit: number): Entry[] {
    const entries: Entry[] = [];
    while (entries.length < limit) {
      const wanted = Math.min(PAGE, limit - entries.length);
      const from = entries.at(-1)?.seq ?? after;
      const { list } = this.statements.page.get(from, wanted) as { list: string | null };
      if (list === null) break;
      const page = (JSON.parse(list) as Sealed[]).map(entryOf);
      entries.push(...page);
      if (page.length < wanted) break;
    }
    return entries;
  }

  streams(names: readonly string[]): Map<string, Stream> {
    const found = new Map<string, Entry[]>(names.map((name) => [name, []]));
    const rows = this.statements.streams.all(JSON.stringify([...found.keys()])) as {
      stream: string;
      body: string;
    }[];
    for (const { stream, body } of rows) found.get(stream)!.push(entryOf(JSON.parse(body) as Sealed));
    return new Map([...found].map(([name, entries]) => [name, { entries, version: entries.length }]));
  }

  receipt(command: string): Receipt | undefined {
    const row = this.statements.commands.get(JSON.stringify([command])) as
      | { first: number; last: number }
      | undefined;
    return row && { outcome: 'repeated', first: row.first, last: row.last };
  }
}
