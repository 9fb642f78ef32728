/** This device's database as this page has it open, and what is kept in it. */
import { OutboxStore } from '../outbox/store.ts';
import { type Database, openDatabase } from './database.ts';
import { KeptDay } from './kept.ts';

interface Following {
  /** Before anything is read from it, each time it is opened. */
  readonly opened: (db: Database) => Promise<void>;
  /** The browser closed it under this page. */
  readonly taken: () => void;
}

let following: Following | undefined;
let opened: Promise<Database> | undefined;

export const followDatabase = (by: Following): void => {
  following = by;
};

/** Opened anew where it was closed for a newer page, or by the browser. */
export function database(): Promise<Database> {
  if (opened) return opened;
  const gone = () => {
    if (opened === opening) opened = undefined;
  };
  const closed = (cleared: boolean) => {
    gone();
    if (cleared) following?.taken();
  };
  const opening = openDatabase(undefined, undefined, closed).then(async (db) => {
    await following?.opened(db);
    return db;
  });
  opened = opening;
  opening.catch(gone);
  return opening;
}

export const store = new OutboxStore(database);
export const kept = new KeptDay(database);
