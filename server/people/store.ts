/**
 * The erasable store in a file of its own. What is erased leaves no trace in it: freed content is
 * overwritten, the file is written anew, and the write-ahead file is emptied.
 */
import { createHash, randomBytes } from 'node:crypto';
import Database from 'libsql';
import type { TextRef } from '../contract/text.ts';
import type { People, Referred, TextToKeep } from './people.ts';

const SCHEMA = `
  CREATE TABLE IF NOT EXISTS texts (
    number INTEGER PRIMARY KEY,
    id TEXT NOT NULL UNIQUE,
    -- NULL in an erased one, with its salt, so that nobody can try out what it was.
    text TEXT,
    folded TEXT,
    salt TEXT,
    hash TEXT NOT NULL,
    person TEXT,
    is_name INTEGER NOT NULL DEFAULT 0
  );
  CREATE INDEX IF NOT EXISTS texts_about ON texts (folded) WHERE person IS NOT NULL AND length(folded) <= 254;
  CREATE INDEX IF NOT EXISTS texts_person ON texts (person) WHERE person IS NOT NULL;
  CREATE TABLE IF NOT EXISTS text_streams (
    stream TEXT NOT NULL,
    id TEXT NOT NULL,
    PRIMARY KEY (stream, id)
  ) WITHOUT ROWID;
  CREATE INDEX IF NOT EXISTS text_streams_id ON text_streams (id);
`;

/** Longer ones are no words to be searched for: a picture kept as text. */
const LONGEST_SEARCHED = 20_000;

/** How words are compared: without regard to case, in any script. Upper case first, so that ß meets SS. */
const folded = (text: string): string => text.normalize('NFKC').toUpperCase().toLowerCase();

const wordsOf = (words: string): string[] => folded(words).split(/\s+/u).filter(Boolean);

const hashOf = (salt: string, text: string): string =>
  createHash('sha256').update(salt).update(text).digest('hex');

interface TextRow {
  readonly id: string;
  readonly text: string | null;
  readonly salt: string | null;
  readonly hash: string;
}

/** @param file path of `people.db`; made if it is not there. ':memory:' for tests */
export function openPeople(file: string): People {
  const db = new Database(file, { timeout: 5_000 });
  db.exec('PRAGMA busy_timeout = 5000');
  db.exec('PRAGMA journal_mode = WAL');
  db.exec('PRAGMA synchronous = FULL');
  db.exec('PRAGMA secure_delete = ON');
  // Sorting and VACUUM must not leave copies in the system's temporary folder.
  db.exec('PRAGMA temp_store = MEMORY');
  db.exec(SCHEMA);
  return new Store(db);
}

class Store implements People {
  private readonly statements;

  constructor(private readonly db: Database.Database) {
    const list = '(SELECT value FROM json_each(?))';
    this.statements = {
      texts: db.prepare(`SELECT id, text, salt, hash FROM texts WHERE id IN ${list}`),
      insert: db.prepare(
        'INSERT INTO texts (id, text, folded, salt, hash, person, is_name) VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING',
      ),
      speakOf: db.prepare('INSERT INTO text_streams (stream, id) VALUES (?, ?) ON CONFLICT DO NOTHING'),
      dropStreams: db.prepare(`DELETE FROM text_streams WHERE id IN ${list}`),
      drop: db.prepare(`DELETE FROM texts WHERE id IN ${list}`),
      // The newest name of each; SQLite takes the other columns from the row of max().
      names: db.prepare(
        `SELECT person, text, max(number) FROM texts WHERE is_name = 1 AND person IN ${list} GROUP BY person`,
      ),
      find: db.prepare(`SELECT person, text AS name FROM (
          SELECT person, text, folded, max(number) FROM texts WHERE is_name = 1 GROUP BY person
        ) AS t WHERE folded IS NOT NULL AND NOT EXISTS (SELECT 1 FROM json_each(?) WHERE instr(t.folded, value) = 0)
        ORDER BY folded`),
      about: db.prepare(
        'SELECT person, min(number) FROM texts WHERE folded = ? AND person IS NOT NULL AND length(folded) <= 254 GROUP BY person ORDER BY 2',
      ),
      search:
        db.prepare(`SELECT DISTINCT s.stream AS stream FROM texts AS t JOIN text_streams AS s ON s.id = t.id
        WHERE t.folded IS NOT NULL AND NOT EXISTS (SELECT 1 FROM json_each(?) WHERE instr(t.folded, value) = 0)
        ORDER BY s.stream`),
      erase: db.prepare(`UPDATE texts SET text = NULL, folded = NULL, salt = NULL WHERE text IS NOT NULL
        AND (person = ? OR id IN (SELECT id FROM text_streams WHERE stream IN ${list}))`),
    };
  }

  async refer(texts: readonly TextToKeep[]): Promise<Referred[]> {
    const before = this.rows(texts.map((text) => text.id));
    return texts.map((text): Referred => {
      const row = before.get(text.id);
      if (!row) {
        const salt = randomBytes(16).toString('hex');
        return { ...text, salt, ref: { text: text.id, hash: hashOf(salt, text.text) }, kept: 'no' };
      }
      const same = row.salt === null || hashOf(row.salt, text.text) === row.hash;
      return {
        ...text,
        salt: row.salt ?? '',
        ref: { text: row.id, hash: row.hash },
        kept: same ? 'the same' : 'another',
      };
    });
  }

  async keep(texts: readonly (TextToKeep | Referred)[]): Promise<TextRef[]> {
    const unreferred = texts.filter((text): text is TextToKeep => !('ref' in text));
    const made = new Map((await this.refer(unreferred)).map((text) => [text.id, text]));
    const referred = texts.map((text) => ('ref' in text ? text : made.get(text.id)!));
    this.inTransaction(() => {
      for (const { id, text, salt, ref, person, isName, streams, kept } of referred) {
        if (kept === 'no')
          this.statements.insert.run(
            id,
            text,
            text.length > LONGEST_SEARCHED ? null : folded(text),
            salt,
            ref.hash,
            person ?? null,
            isName ? 1 : 0,
          );
        for (const stream of streams ?? []) this.statements.speakOf.run(stream, id);
      }
    });
    return referred.map((text) => text.ref);
  }

  async drop(ids: readonly string[]): Promise<void> {
    const list = JSON.stringify(ids);
    this.inTransaction(() => {
      this.statements.dropStreams.run(list);
      this.statements.drop.run(list);
    });
  }

  async read(ids: readonly string[]): Promise<Map<string, string | null>> {
    return new Map([...this.rows(ids)].map(([id, row]) => [id, row.text]));
  }

  async names(persons: readonly string[]): Promise<Map<string, string | null>> {
    const rows = this.statements.names.all(JSON.stringify(persons)) as {
      person: string;
      text: string | null;
    }[];
    return new Map(rows.map(({ person, text }) => [person, text]));
  }

  async find(words: string): Promise<{ person: string; name: string }[]> {
    const wanted = wordsOf(words);
    if (wanted.length === 0) return [];
    const rows = this.statements.find.all(JSON.stringify(wanted)) as { person: string; name: string }[];
    return rows.map(({ person, name }) => ({ person, name }));
  }

  async about(text: string): Promise<string[]> {
    return (this.statements.about.all(folded(text)) as { person: string }[]).map(({ person }) => person);
  }

  async search(words: string): Promise<string[]> {
    const wanted = wordsOf(words);
    if (wanted.length === 0) return [];
    return (this.statements.search.all(JSON.stringify(wanted)) as { stream: string }[]).map(
      ({ stream }) => stream,
    );
  }

  async erase(person: string, streams: readonly string[]): Promise<number> {
    let erased = 0;
    this.inTransaction(() => {
      erased = this.statements.erase.run(person, JSON.stringify(streams)).changes;
    });
    this.wipe();
    return erased;
  }

  async close(): Promise<void> {
    if (this.db.open) this.db.close();
  }

  private rows(ids: readonly string[]): Map<string, TextRow> {
    if (ids.length === 0) return new Map();
    const rows = this.statements.texts.all(JSON.stringify(ids)) as TextRow[];
    return new Map(rows.map((row) => [row.id, row]));
  }

  /**
   * secure_delete zeroes what is freed, but pages that were split keep old copies of what moved away,
   * so the file is written anew; then nothing of the old pages may stay in the write-ahead file.
   */
  private wipe(): void {
    this.db.exec('VACUUM');
    const checkpoint = this.db.prepare('PRAGMA wal_checkpoint(TRUNCATE)').get() as { busy: number };
    if (checkpoint.busy !== 0)
      throw new Error(
        'The erased texts are still in the write-ahead file: another program has people.db open. Close it and erase again.',
      );
  }

  private inTransaction(work: () => void): void {
    this.db.exec('BEGIN IMMEDIATE');
    try {
      work();
      this.db.exec('COMMIT');
    } catch (error) {
      if (this.db.inTransaction) this.db.exec('ROLLBACK');
      throw error;
    }
  }
}
