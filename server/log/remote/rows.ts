/** Sealed rows as the statements of one batch, many rows to a statement. */
import type { InStatement } from '@libsql/client/http';
import type { Row } from '../judge.ts';

type Values = (string | number)[];

const ROWS_AT_ONCE = 100;

export function statementsFor(rows: readonly Row[]): InStatement[] {
  const statements: InStatement[] = [];
  let entries: Values[] = [];
  let streams: Values[] = [];
  let claims: Values[] = [];
  const flush = () => {
    statements.push(
      ...inserts('entries (seq, command, part, body, hash)', entries),
      ...inserts('stream_entries (stream, position, seq)', streams),
      ...inserts('claims (claim, seq)', claims),
    );
    entries = [];
    streams = [];
    claims = [];
  };
  for (const row of rows) {
    entries.push([row.seq, row.command, row.part, row.body, row.hash]);
    for (const [stream, position] of row.streams) streams.push([stream, position, row.seq]);
    if (row.released.length > 0) {
      // The database lets a claim go only while the entry that gives it up is the newest.
      flush();
      for (const claim of row.released)
        statements.push({ sql: 'DELETE FROM claims WHERE claim = ?', args: [claim] });
    }
    for (const claim of row.claimed) claims.push([claim, row.seq]);
  }
  flush();
  return statements;
}

function inserts(table: string, rows: readonly Values[]): InStatement[] {
  const statements: InStatement[] = [];
  for (let at = 0; at < rows.length; at += ROWS_AT_ONCE) {
    const some = rows.slice(at, at + ROWS_AT_ONCE);
    const values = some.map((row) => `(${row.map(() => '?').join(', ')})`).join(', ');
    statements.push({ sql: `INSERT INTO ${table} VALUES ${values}`, args: some.flat() });
  }
  return statements;
}
