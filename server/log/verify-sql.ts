/** The questions `verify` asks of the tables, the same in both homes. */
import { type Bytes, text } from './text.ts';
import type { StreamRow } from './verify.ts';
import type { EntryRow } from './walk.ts';

/** With INDEXED BY, so that the index itself is looked at and not only the table. */
export const ENTRIES_SQL = `SELECT e.seq AS seq, CAST(e.command AS BLOB) AS command, e.part AS part,
  CAST(e.body AS BLOB) AS body, CAST(e.hash AS BLOB) AS hash,
  (SELECT i.seq FROM entries AS i INDEXED BY sqlite_autoindex_entries_1
   WHERE i.command = e.command AND i.part = e.part) AS indexed
  FROM entries AS e WHERE e.seq > ? ORDER BY e.seq LIMIT ?`;

export const STREAM_ROWS_SQL = `SELECT CAST(s.stream AS BLOB) AS stream, s.position AS position, s.seq AS seq,
  EXISTS (SELECT 1 FROM entries AS e, json_each(e.body, '$.streams') AS n WHERE e.seq = s.seq AND n.value = s.stream) AS named
  FROM stream_entries AS s WHERE (s.stream, s.position) > (?, ?) ORDER BY s.stream, s.position LIMIT ?`;

export const UNINDEXED_SQL = `SELECT e.seq AS seq FROM entries AS e, json_each(e.body, '$.streams') AS n
  WHERE NOT EXISTS (SELECT 1 FROM stream_entries AS s WHERE s.stream = n.value AND s.seq = e.seq)
  ORDER BY e.seq LIMIT 1`;

export const CLAIMS_SQL = 'SELECT CAST(claim AS BLOB) AS claim, seq FROM claims LIMIT ?';

export const TABLES_SQL =
  'SELECT CAST(name AS BLOB) AS name, CAST(sql AS BLOB) AS sql FROM sqlite_master WHERE sql IS NOT NULL';

/** Rows as the drivers give them, turned into what `verify` walks. */
export interface RawEntry {
  readonly seq: number;
  readonly command: Bytes;
  readonly part: number;
  readonly body: Bytes;
  readonly hash: Bytes;
  readonly indexed: number | null;
}
export interface RawStreamRow {
  readonly stream: Bytes;
  readonly position: number;
  readonly seq: number;
  readonly named: number;
}
export interface RawClaim {
  readonly claim: Bytes;
  readonly seq: number;
}
export interface RawTable {
  readonly name: Bytes;
  readonly sql: Bytes;
}

export function entryRow({ seq, command, part, body, hash, indexed }: RawEntry): EntryRow {
  return { seq, command: text(command), part, body: text(body), hash: text(hash), indexed };
}

export function streamRow({ stream, position, seq, named }: RawStreamRow): StreamRow {
  return { stream: text(stream), position, seq, named: Boolean(named) };
}

export function claimsFrom(rows: readonly RawClaim[]): Map<string, number> {
  return new Map(rows.map(({ claim, seq }) => [text(claim), seq]));
}

export function tablesFrom(rows: readonly RawTable[]): { name: string; sql: string }[] {
  return rows.map(({ name, sql }) => ({ name: text(name), sql: text(sql) }));
}
