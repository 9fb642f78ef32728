/** One connection to the embedded log, with the PRAGMAs that libsql keeps per connection. */
import Database from 'libsql';
import { LogDamaged } from '../log.ts';
import { MIGRATIONS } from '../schema.ts';

export type Connection = Database.Database;

/** Milliseconds a connection waits for another one's lock. */
export const BUSY_TIMEOUT = 5000;

export function connect(path: string, busyTimeout = BUSY_TIMEOUT): Connection {
  const db = new Database(path, { timeout: busyTimeout });
  try {
    db.exec(`PRAGMA busy_timeout = ${busyTimeout}`);
    db.exec('PRAGMA journal_mode = WAL');
    db.exec('PRAGMA synchronous = FULL');
    db.exec('PRAGMA foreign_keys = ON');
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

/** For reads only: the database itself refuses everything else on this connection. */
export function connectReadOnly(path: string): Connection {
  const db = connect(path);
  db.exec('PRAGMA query_only = ON');
  return db;
}

/** Brings the tables up to this release's, each step in a transaction of its own. */
export function migrate(db: Connection): void {
  const { user_version: done } = db.prepare('PRAGMA user_version').get() as { user_version: number };
  if (done > MIGRATIONS.length)
    throw new LogDamaged(
      `The log was written by a newer Wareboard (its tables are of version ${done}, this one knows ${MIGRATIONS.length}).`,
    );
  for (let version = done; version < MIGRATIONS.length; version++) {
    db.exec('BEGIN IMMEDIATE');
    try {
      for (const statement of MIGRATIONS[version]!) db.exec(statement);
      db.exec(`PRAGMA user_version = ${version + 1}`);
      db.exec('COMMIT');
    } catch (error) {
      if (db.inTransaction) db.exec('ROLLBACK');
      throw error;
    }
    // The tables go to the file itself, so that a lost write-ahead file never looks like a new log.
    db.exec('PRAGMA wal_checkpoint(TRUNCATE)');
  }
}
