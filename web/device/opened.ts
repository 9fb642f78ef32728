/** This device's database as this page has it open, and what is kept in it. */
import { OutboxStore } from '../outbox/store.ts';
import { type Database, openDatabase } from './database.ts';
import { KeptDay } from './kept.ts';

let opened: Promise<Database> | undefined;

/** Opened anew where it was closed for a newer page. */
export function database(): Promise<Database> {
  if (opened) return opened;
  const opening = openDatabase();
  opened = opening;
  const gone = () => {
    if (opened === opening) opened = undefined;
  };
  opening.then((db) => db.addEventListener('close', gone), gone);
  return opening;
}

export const store = new OutboxStore(database);
export const kept = new KeptDay(database);
