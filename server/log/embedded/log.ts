/** The embedded home: one libsql file, one writer, reads beside it. */
import type { Entry } from '../../contract/entry.ts';
import type { Append, Clock, EventLog, Head, Receipt, Stream, Verdict } from '../log.ts';
import { readOutsideHead } from '../outside-head.ts';
import { GroupCommit, type WriteGroup } from '../queue.ts';
import { verify } from '../verify.ts';
import { type Connection, connect } from './connection.ts';
import { EmbeddedPages } from './pages.ts';
import { Reader } from './reader.ts';

/** Where the writing is done: in this process or on a thread. */
export interface WritingPlace {
  readonly write: WriteGroup;
  close(): Promise<void>;
}

export class EmbeddedLog implements EventLog {
  private readonly reader: Reader;
  private readonly queue: GroupCommit;

  constructor(
    private readonly place: WritingPlace,
    private readonly db: Connection,
    private readonly files: { readonly file: string; readonly headFile: string } | undefined,
    clock: Clock,
  ) {
    this.reader = new Reader(db);
    this.queue = new GroupCommit(clock, (group, now) => place.write(group, now));
  }

  async append(append: Append): Promise<Receipt> {
    const result = await this.queue.submit(append);
    if (result instanceof Error) throw result;
    return result;
  }

  appendAll(appends: readonly Append[]): Promise<(Receipt | Error)[]> {
    return Promise.all(appends.map((append) => this.queue.submit(append)));
  }

  async streams(names: readonly string[]): Promise<Map<string, Stream>> {
    return this.reader.streams(names);
  }

  async read(after: number, limit: number): Promise<Entry[]> {
    return this.reader.read(after, limit);
  }

  async receipt(command: string): Promise<Receipt | undefined> {
    return this.reader.receipt(command);
  }

  async head(): Promise<Head> {
    return this.reader.head();
  }

  onAppended(listener: (head: Head) => void): () => void {
    return this.queue.onAppended(listener);
  }

  verify(progress?: (walked: number, of: number) => void): Promise<Verdict> {
    const { files } = this;
    if (files === undefined) return verify(new EmbeddedPages(this.db, false), undefined, progress);
    const pages = new EmbeddedPages(connect(files.file), true);
    return verify(pages, () => readOutsideHead(files.headFile), progress);
  }

  async close(): Promise<void> {
    await this.queue.close();
    if (this.db.open) this.db.close();
    await this.place.close();
  }
}
