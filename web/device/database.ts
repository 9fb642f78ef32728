/**
 * What this device keeps, in IndexedDB: what waits to be sent, and what the day's work needs. Each
 * release that changes the layout adds a step; a step never drops what waits.
 */
import {
  type DBSchema,
  type IDBPDatabase,
  type IDBPObjectStore,
  type IDBPTransaction,
  openDB,
  type StoreNames,
} from 'idb';
import type { Entry } from '../../server/contract/entry.ts';
import { newId } from '../api/ids.ts';
import type { SentOrder, Unsent } from '../outbox/unsent.ts';

/** How the log stood when the day's streams were fetched, and which they are. */
export interface Day {
  /** Entries in the log then. */
  readonly count: number;
  readonly hash: string;
  /** This device's clock, milliseconds. */
  readonly at: number;
  readonly zone: string;
  readonly streams: readonly string[];
  readonly names: Readonly<Record<string, string | null>>;
}

/** Foot marks that this device may give while it is offline. */
export interface HeldMarks {
  readonly run: string;
  readonly free: readonly string[];
}

/** A report's answer as it was last told. */
export interface KeptAnswer {
  readonly address: string;
  /** This device's clock, milliseconds. */
  readonly at: number;
  readonly answer: unknown;
}

export interface KeptFile {
  readonly sha256: string;
  readonly blob: Blob;
}

export interface Kept extends DBSchema {
  outbox: { key: number; value: Unsent; indexes: { id: string } };
  /** Taken by the studio, and newer than the day's streams as they are kept here. */
  sent: { key: string; value: SentOrder };
  entries: { key: number; value: Entry; indexes: { streams: string } };
  answers: { key: string; value: KeptAnswer; indexes: { at: number } };
  /** 'day', 'marks', 'noted', 'born': one value each. */
  facts: { key: string; value: unknown };
  /** Taken on this device and not sent yet, whole. */
  files: { key: string; value: KeptFile };
  /** Small ones of the day's ware. */
  smalls: { key: string; value: KeptFile };
}

export type Database = IDBPDatabase<Kept>;
type Upgrade = IDBPTransaction<
  Kept,
  ('outbox' | 'sent' | 'entries' | 'answers' | 'facts' | 'files' | 'smalls')[],
  'versionchange'
>;

/** Step n brings layout n to n + 1; a released step is never edited. */
export type Step = (db: Database, upgrade: Upgrade) => void | Promise<void>;

export const STEPS: readonly Step[] = [
  (db) => {
    db.createObjectStore('outbox', { keyPath: 'n', autoIncrement: true }).createIndex('id', 'id', {
      unique: true,
    });
    db.createObjectStore('sent', { keyPath: 'id' });
    db.createObjectStore('entries', { keyPath: 'seq' }).createIndex('streams', 'streams', {
      multiEntry: true,
    });
    db.createObjectStore('answers', { keyPath: 'address' }).createIndex('at', 'at');
    db.createObjectStore('facts');
    db.createObjectStore('files', { keyPath: 'sha256' });
  },
  (db) => {
    db.createObjectStore('smalls', { keyPath: 'sha256' });
  },
  // Another one with the next making: so that one made anew is told from the one before.
  (_db, upgrade) => void upgrade.objectStore('facts').put(newId(), 'born'),
];

export const NAME = 'wareboard';

/**
 * @param closed called when it is closed from outside: `cleared` where the browser did it
 * @throws where the browser keeps nothing (a private window, storage that is turned off)
 */
export async function openDatabase(
  name = NAME,
  steps: readonly Step[] = STEPS,
  closed: (cleared: boolean) => void = () => {},
): Promise<Database> {
  return openDB<Kept>(name, steps.length, {
    async upgrade(db, before, _after, upgrade) {
      for (const step of steps.slice(before)) await step(db, upgrade as unknown as Upgrade);
    },
    // A newer page wants to change the layout: this one lets go, and opens again when it is needed.
    blocking: (_now, _next, event) => {
      (event.target as IDBDatabase).close();
      closed(false);
    },
    terminated: () => closed(true),
  });
}

/**
 * All of the work in the transaction, or none of it. It rejects with why the transaction was broken off, which
 * says more than what a single request is told.
 */
export async function wholly<T>(
  transaction: { readonly done: Promise<void>; abort(): void },
  work: () => Promise<T>,
): Promise<T> {
  const working = work().catch((error: unknown) => {
    try {
      transaction.abort();
    } catch {
      // Broken off already.
    }
    throw error;
  });
  const [worked, done] = await Promise.allSettled([working, transaction.done]);
  if (worked.status === 'fulfilled' && done.status === 'fulfilled') return worked.value;
  const reason = done.status === 'rejected' ? done.reason : undefined;
  throw reason ?? (worked as PromiseRejectedResult).reason;
}

/** What is read in one go. A bare read would leave its transaction's end to nobody when the browser closes the database. */
export async function read<Name extends StoreNames<Kept>, T>(
  db: Database,
  name: Name,
  work: (store: IDBPObjectStore<Kept, [Name], Name, 'readonly'>) => Promise<T>,
): Promise<T> {
  const transaction = db.transaction(name);
  return wholly(transaction, () => work(transaction.store));
}
