/**
 * The file of a read model. It is disposable: whatever is not right with it, it is thrown away.
 *
 * A new file grows under `<name>.building` without journal and without syncs, because nobody reads it
 * and a crash leaves nothing but that name, which the next start removes. When it is complete it is
 * synced and only then given its own name; from there on the write-ahead file keeps checkpoint and
 * rows in one transaction. `synchronous=NORMAL` may lose the last transactions at a power cut, never
 * half of one, and the log is read again from the checkpoint that is left.
 */
import { closeSync, fsyncSync, openSync, readSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'libsql';
import type { ModelPlan } from './plan.ts';

export type Connection = Database.Database;

export interface Checkpoint {
  /** Seq of the last entry that the rows speak of. */
  readonly seq: number;
  /** What that entry was: another one there means another log. */
  readonly mark: string;
  readonly signature: string;
}

const OWN_TABLES = `
CREATE TABLE wareboard_checkpoint (seq INTEGER NOT NULL, mark TEXT NOT NULL, signature TEXT NOT NULL);
CREATE TABLE wareboard_events (name TEXT PRIMARY KEY, entries INTEGER NOT NULL, last INTEGER NOT NULL);`;

const PAGES_KIB = 32 * 1024;

export const buildingPath = (path: string): string => `${path}.building`;

export function createBuilding(path: string, plan: ModelPlan): Connection {
  discard(path);
  const db = new Database(buildingPath(path));
  db.exec(`PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF;
    PRAGMA cache_size = -${PAGES_KIB}; PRAGMA temp_store = MEMORY;`);
  db.exec(OWN_TABLES);
  db.prepare("INSERT INTO wareboard_checkpoint VALUES (0, '', ?)").run([plan.signature]);
  for (const table of plan.tables) db.exec(table.create);
  return db;
}

/** Gives the complete file its name. `lasting` files are synced first; others are removed at the next start. */
export function finishBuilding(db: Connection, path: string, lasting: boolean): Connection {
  db.close();
  if (lasting) sync(buildingPath(path));
  renameSync(buildingPath(path), path);
  if (lasting) sync(dirname(path));
  return connectWriter(path, lasting);
}

function sync(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

export function connectWriter(path: string, lasting = true): Connection {
  const db = new Database(path, { timeout: 5000 });
  db.exec(
    `PRAGMA busy_timeout = 5000; PRAGMA journal_mode = WAL; PRAGMA synchronous = ${lasting ? 'NORMAL' : 'OFF'};`,
  );
  return db;
}

/** A connection for reports: the database itself refuses every write on it. */
export function connectReader(path: string): Connection {
  const db = new Database(path, { timeout: 5000 });
  db.exec(`PRAGMA busy_timeout = 5000; PRAGMA query_only = ON; PRAGMA cache_size = -${PAGES_KIB};`);
  return db;
}

/** Opens the file when it holds this plugin's rows; undefined when there is none or it is another's, torn or older. */
export function openExisting(
  path: string,
  plan: ModelPlan,
): { db: Connection; checkpoint: Checkpoint } | undefined {
  if (isCutShort(path)) return undefined;
  const torn = sizeOf(`${path}-wal`) > 0;
  let db: Connection | undefined;
  try {
    db = connectWriter(path);
    if (torn) checkPages(db);
    const [checkpoint, ...more] = db.prepare('SELECT * FROM wareboard_checkpoint').all() as Checkpoint[];
    if (checkpoint?.signature === plan.signature && more.length === 0) return { db, checkpoint };
  } catch {
    // A file that cannot be read is as good as none.
  }
  db?.close();
  return undefined;
}

/** Left by a process that did not end well: look at every page once. */
function checkPages(db: Connection): void {
  const [result] = db.prepare('PRAGMA quick_check(1)').raw().all() as [[string]];
  if (result[0] !== 'ok') throw new Error(result[0]);
}

/** Whether there are fewer pages than the file's own header says (https://www.sqlite.org/fileformat.html, 1.3). */
function isCutShort(path: string): boolean {
  const size = sizeOf(path);
  if (size < 100) return true;
  const header = Buffer.alloc(100);
  const handle = openSync(path, 'r');
  readSync(handle, header, 0, 100, 0);
  closeSync(handle);
  const pageSize = header.readUInt16BE(16);
  return size < (pageSize === 1 ? 65_536 : pageSize) * header.readUInt32BE(28);
}

function sizeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0;
}

export function discard(path: string): void {
  for (const end of ['', '-wal', '-shm', '-journal', '.building', '.building-journal'])
    rmSync(path + end, { force: true });
}
