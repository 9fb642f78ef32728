/**
 * The questions both homes ask of the same tables. Lists of names are bound as one JSON text. Text
 * that was stored is fetched as bytes: where damage has made it invalid UTF-8, the driver would end the
 * whole process.
 */
import { NOTHING } from './chain.ts';
import type { State } from './judge.ts';
import type { Head, Known } from './log.ts';
import type { Prepared } from './prepare.ts';
import { type Bytes, text } from './text.ts';

export const HEAD_SQL =
  'SELECT seq AS count, CAST(hash AS BLOB) AS hash FROM entries ORDER BY seq DESC LIMIT 1';

export const LAST_SQL = `SELECT seq AS count, CAST(hash AS BLOB) AS hash,
  CAST(json_extract(body, '$.recordedAt') AS BLOB) AS recordedAt
  FROM entries ORDER BY seq DESC LIMIT 1`;

export const HASH_SQL = 'SELECT CAST(hash AS BLOB) AS hash FROM entries WHERE seq = ?';

export const TAIL_SQL = `SELECT seq, CAST(body AS BLOB) AS body, CAST(hash AS BLOB) AS hash
  FROM entries WHERE seq > ? ORDER BY seq LIMIT ?`;

/** The receipt of each command of a list. */
export const COMMANDS_SQL = `SELECT c.value AS command, e.seq AS first, 
  CAST(json_extract(e.body, '$.fingerprint') AS BLOB) AS fingerprint,
  (SELECT max(seq) FROM entries WHERE command = c.value) AS last
  FROM json_each(?) AS c JOIN entries AS e ON e.command = c.value AND e.part = 0`;

export const VERSIONS_SQL = `SELECT s.value AS stream,
  (SELECT max(position) FROM stream_entries WHERE stream = s.value) AS version FROM json_each(?) AS s`;

export const HELD_SQL =
  'SELECT c.value AS claim, k.seq AS seq FROM json_each(?) AS c JOIN claims AS k ON k.claim = c.value';

/** Entries as one JSON list, which is quicker than row by row. */
export const PAGE_SQL = `SELECT CAST('[' || group_concat(body, ',') || ']' AS BLOB) AS list
  FROM (SELECT body FROM entries WHERE seq > ? ORDER BY seq LIMIT ?)`;

export const STREAMS_SQL = `SELECT n.value AS stream, CAST(e.body AS BLOB) AS body
  FROM json_each(?) AS n JOIN stream_entries AS s ON s.stream = n.value JOIN entries AS e ON e.seq = s.seq
  ORDER BY s.stream, s.position`;

export interface HeadRow {
  readonly count: number;
  readonly hash: Bytes;
}
export interface LastRow extends HeadRow {
  readonly recordedAt: Bytes;
}
export interface CommandRow {
  readonly command: string;
  readonly fingerprint: Bytes;
  readonly first: number;
  readonly last: number;
}
export interface VersionRow {
  readonly stream: string;
  readonly version: number | null;
}
export interface HeldRow {
  readonly claim: string;
  readonly seq: number;
}

export function headFrom(row: HeadRow | undefined): Head {
  return row === undefined ? NOTHING : { count: row.count, hash: text(row.hash) };
}

export const knownFrom = (rows: readonly CommandRow[]): Map<string, Known> =>
  new Map(
    rows.map(({ command, fingerprint, first, last }) => [
      command,
      { outcome: 'repeated', fingerprint: text(fingerprint), first, last },
    ]),
  );

export const heldFrom = (rows: readonly HeldRow[]): Map<string, number> =>
  new Map(rows.map(({ claim, seq }) => [claim, seq]));

export function stateFrom(rows: {
  last: LastRow | undefined;
  commands: readonly CommandRow[];
  versions: readonly VersionRow[];
  held: readonly HeldRow[];
}): State {
  const { last, commands, versions, held } = rows;
  return {
    ...headFrom(last),
    recordedAt: last === undefined ? '' : text(last.recordedAt),
    commands: new Map(
      commands.map(({ command, fingerprint, first, last }) => [
        command,
        { fingerprint: text(fingerprint), first, last },
      ]),
    ),
    streams: new Map(versions.map(({ stream, version }) => [stream, version ?? 0])),
    claims: heldFrom(held),
  };
}

/** Everything that judging the group needs to know of. */
export function namesOf(
  group: readonly Prepared[],
): Record<'commands' | 'streams' | 'claims', readonly string[]> {
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
  return { commands: [...commands], streams: [...streams], claims: [...claims] };
}
