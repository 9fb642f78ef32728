/** The embedded home: one libsql file, one writer, reads beside it. */
import type { Home } from '../home.ts';
import { readOutsideHead } from '../outside-head.ts';
import type { WriteGroup } from '../queue.ts';
import { type Connection, connectReadOnly } from './connection.ts';
import { EmbeddedPages } from './pages.ts';
import { EmbeddedReader } from './reader.ts';

/** Where the writing is done: in this process or on a thread. */
export interface WritingPlace {
  readonly write: WriteGroup;
  close(): Promise<void>;
}

export function fileHome(place: WritingPlace, file: string, headFile: string): Home {
  const db = connectReadOnly(file);
  return {
    write: (group, now) => place.write(group, now),
    reader: new EmbeddedReader(db),
    pages: () => new EmbeddedPages(connectReadOnly(file), true),
    readOutside: () => readOutsideHead(headFile),
    close: async () => {
      db.close();
      await place.close();
    },
  };
}

/** A log in memory has one connection, and nothing to lose. */
export function memoryHome(place: WritingPlace, db: Connection): Home {
  return {
    write: (group, now) => place.write(group, now),
    reader: new EmbeddedReader(db),
    pages: () => new EmbeddedPages(db, false),
    readOutside: undefined,
    close: () => place.close(),
  };
}
