/** The questions `verify` asks of the tables, the same in both homes. */

/** With INDEXED BY, so that the index itself is looked at and not only the table. */
export const ENTRIES_SQL = `SELECT e.seq AS seq, e.command AS command, e.part AS part, e.body AS body, e.hash AS hash,
  (SELECT i.seq FROM entries AS i INDEXED BY sqlite_autoindex_entries_1
   WHERE i.command = e.command AND i.part = e.part) AS indexed
  FROM entries AS e WHERE e.seq > ? ORDER BY e.seq LIMIT ?`;

export const STREAM_ROWS_SQL = `SELECT s.stream AS stream, s.position AS position, s.seq AS seq,
  EXISTS (SELECT 1 FROM entries AS e, json_each(e.body, '$.streams') AS n WHERE e.seq = s.seq AND n.value = s.stream) AS named
  FROM stream_entries AS s WHERE (s.stream, s.position) > (?, ?) ORDER BY s.stream, s.position LIMIT ?`;

export const UNINDEXED_SQL = `SELECT e.seq AS seq FROM entries AS e, json_each(e.body, '$.streams') AS n
  WHERE NOT EXISTS (SELECT 1 FROM stream_entries AS s WHERE s.stream = n.value AND s.seq = e.seq)
  ORDER BY e.seq LIMIT 1`;

export const CLAIMS_SQL = 'SELECT claim, seq FROM claims';
