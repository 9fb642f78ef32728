CREATE TABLE claims (
  claim TEXT PRIMARY KEY NOT NULL,
  seq INTEGER NOT NULL REFERENCES entries (seq)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER claims_no_replace BEFORE INSERT ON claims
WHEN EXISTS (SELECT 1 FROM claims WHERE claim = NEW.claim)
BEGIN SELECT RAISE(ABORT, 'the claim is held already'); END;

CREATE TRIGGER claims_no_update BEFORE UPDATE ON claims
BEGIN SELECT RAISE(ABORT, 'claims is append-only: UPDATE refused'); END;

CREATE TRIGGER claims_released_by_entry BEFORE DELETE ON claims
WHEN NOT EXISTS (
  SELECT 1 FROM json_each((SELECT body FROM entries ORDER BY seq DESC LIMIT 1), '$.releases') WHERE value = OLD.claim
)
BEGIN SELECT RAISE(ABORT, 'a claim is only given up by the newest entry'); END;

CREATE TABLE entries (
  seq INTEGER PRIMARY KEY,
  command TEXT NOT NULL,
  part INTEGER NOT NULL,
  body TEXT NOT NULL,
  hash TEXT NOT NULL,
  UNIQUE (command, part)
) STRICT;

CREATE TRIGGER entries_chained BEFORE INSERT ON entries
WHEN json_extract(NEW.body, '$.previous') IS NOT
  coalesce((SELECT hash FROM entries WHERE seq = NEW.seq - 1), '0000000000000000000000000000000000000000000000000000000000000000')
BEGIN SELECT RAISE(ABORT, 'entries is append-only: it does not carry on from the last entry'); END;

CREATE TRIGGER entries_in_order BEFORE INSERT ON entries
WHEN NEW.seq <> coalesce((SELECT max(seq) FROM entries), 0) + 1
BEGIN SELECT RAISE(ABORT, 'entries is append-only: not the next entry'); END;

CREATE TRIGGER entries_no_delete BEFORE DELETE ON entries
BEGIN SELECT RAISE(ABORT, 'entries is append-only: DELETE refused'); END;

CREATE TRIGGER entries_no_replace BEFORE INSERT ON entries
WHEN EXISTS (SELECT 1 FROM entries WHERE command = NEW.command AND part = NEW.part)
BEGIN SELECT RAISE(ABORT, 'entries is append-only: the command is recorded already'); END;

CREATE TRIGGER entries_no_update BEFORE UPDATE ON entries
BEGIN SELECT RAISE(ABORT, 'entries is append-only: UPDATE refused'); END;

CREATE TABLE stream_entries (
  stream TEXT NOT NULL,
  position INTEGER NOT NULL,
  seq INTEGER NOT NULL REFERENCES entries (seq),
  PRIMARY KEY (stream, position)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER stream_entries_in_order BEFORE INSERT ON stream_entries
WHEN NEW.position <> coalesce((SELECT max(position) FROM stream_entries WHERE stream = NEW.stream), 0) + 1
BEGIN SELECT RAISE(ABORT, 'stream_entries is append-only: not the next position'); END;

CREATE TRIGGER stream_entries_no_delete BEFORE DELETE ON stream_entries
BEGIN SELECT RAISE(ABORT, 'stream_entries is append-only: DELETE refused'); END;

CREATE TRIGGER stream_entries_no_update BEFORE UPDATE ON stream_entries
BEGIN SELECT RAISE(ABORT, 'stream_entries is append-only: UPDATE refused'); END;
