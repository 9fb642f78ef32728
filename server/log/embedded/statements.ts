/** The prepared statements of the writing connection. */

import { NOTHING } from '../chain.ts';
import type { State } from '../judge.ts';
import type { Head } from '../log.ts';
import type { Prepared } from '../prepare.ts';
import type { Connection } from './connection.ts';
import { Inserter } from './insert.ts';

const HEAD_SQL = 'SELECT seq AS count, hash FROM entries ORDER BY seq DESC LIMIT 1';

export function headOf(db: Connection): () => Head {
  const statement = db.prepare(HEAD_SQL);
  return () => {
    const row = statement.get() as Head | undefined;
    // libsql adds its timing to the row of `get`.
    return row === undefined ? NOTHING : { count: row.count, hash: row.hash };
  };
}

/** The receipt of each command of a JSON list. */
export const COMMANDS_SQL = `SELECT c.value AS command, e.seq AS first, json_extract(e.body, '$.fingerprint') AS fingerprint,
  (SELECT max(seq) FROM entries WHERE command = c.value) AS last
  FROM json_each(?) AS c JOIN entries AS e ON e.command = c.value AND e.part = 0`;

export function prepareStatements(db: Connection) {
  return {
    head: db.prepare(
      `SELECT seq AS count, hash, json_extract(body, '$.recordedAt') AS recordedAt FROM entries ORDER BY seq DESC LIMIT 1`,
    ),
    commands: db.prepare(COMMANDS_SQL),
    streams: db.prepare(`SELECT s.value AS stream,
      (SELECT max(position) FROM stream_entries WHERE stream = s.value) AS version FROM json_each(?) AS s`),
    claims: db.prepare(
      'SELECT c.value AS claim, k.seq AS seq FROM json_each(?) AS c JOIN claims AS k ON k.claim = c.value',
    ),
    inserter: new Inserter(db),
  };
}

export type Statements = ReturnType<typeof prepareStatements>;

export function loadState(statements: Statements, group: readonly Prepared[]): State {
  const asked = namesOf(group);
  const head = (statements.head.get() ?? { ...NOTHING, recordedAt: '' }) as Pick<
    State,
    'count' | 'hash' | 'recordedAt'
  >;
  const rows = <T>(statement: Statements['streams'], names: Set<string>) =>
    names.size === 0 ? [] : (statement.all(JSON.stringify([...names])) as T[]);
  const commands = rows<{ command: string; fingerprint: string; first: number; last: number }>(
    statements.commands,
    asked.commands,
  );
  const streams = rows<{ stream: string; version: number | null }>(statements.streams, asked.streams);
  const claims = rows<{ claim: string; seq: number }>(statements.claims, asked.claims);
  return {
    ...head,
    commands: new Map(commands.map(({ command, ...receipt }) => [command, receipt])),
    streams: new Map(streams.map(({ stream, version }) => [stream, version ?? 0])),
    claims: new Map(claims.map(({ claim, seq }) => [claim, seq])),
  };
}

/** Everything that judging the group needs to know of. */
export function namesOf(group: readonly Prepared[]) {
  const commands = new Set<string>();
  const streams = new Set<string>();
  const claims = new Set<string>();
  for (const append of group) {
    commands.add(append.command);
    for (const [stream] of append.expect) streams.add(stream);
    for (const entry of append.entries) {
      for (const stream of entry.streams) streams.add(stream);
      for (const claim of entry.claims) claims.add(claim);
      for (const claim of entry.releases) claims.add(claim);
    }
  }
  return { commands, streams, claims };
}
