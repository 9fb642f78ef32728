/** The log over whichever home it has: the queue in front, reads beside it. */
import type { Entry } from '../contract/entry.ts';
import type { Append, Clock, EventLog, Head, Known, Receipt, Stream, Verdict } from './log.ts';
import { GroupCommit, type WriteGroup } from './queue.ts';
import { type Pages, verify } from './verify.ts';

export interface Reader {
  head(): Promise<Head>;
  page(after: number, limit: number): Promise<Entry[]>;
  streams(names: readonly string[]): Promise<Map<string, Stream>>;
  receipts(commands: readonly string[]): Promise<Map<string, Known>>;
  holders(claims: readonly string[]): Promise<Map<string, number>>;
}

export interface Home {
  readonly write: WriteGroup;
  readonly reader: Reader;
  /** The tables for `verify`. */
  pages(): Pages;
  /** Reads the outside head; undefined for a log that has none. */
  readonly readOutside: (() => Head | undefined) | undefined;
  close(): Promise<void>;
}

/** Entries fetched at once; more would only take memory. */
const PAGE = 1000;
/** Commands written out before others get their turn of the event loop. */
const SLICE = 500;

export class HomedLog implements EventLog {
  private readonly queue: GroupCommit;
  private closing: Promise<void> | undefined;

  constructor(
    private readonly home: Home,
    clock: Clock,
  ) {
    this.queue = new GroupCommit(clock, home.write);
  }

  async append(append: Append): Promise<Receipt> {
    const result = await this.queue.submit(append);
    if (result instanceof Error) throw result;
    return result;
  }

  async appendAll(appends: readonly Append[]): Promise<(Receipt | Error)[]> {
    const results: Promise<Receipt | Error>[] = [];
    for (const append of appends) {
      results.push(this.queue.submit(append));
      // Writing out a long import must not keep everybody else waiting.
      if (results.length % SLICE === 0) await new Promise(setImmediate);
    }
    return Promise.all(results);
  }

  streams(names: readonly string[]): Promise<Map<string, Stream>> {
    return this.home.reader.streams(names);
  }

  async read(after: number, limit: number): Promise<Entry[]> {
    if (limit <= PAGE) return this.home.reader.page(after, limit);
    const entries: Entry[] = [];
    while (entries.length < limit) {
      const wanted = Math.min(PAGE, limit - entries.length);
      const page = await this.home.reader.page(entries.at(-1)?.seq ?? after, wanted);
      entries.push(...page);
      if (page.length < wanted) break;
    }
    return entries;
  }

  async receipt(command: string): Promise<Receipt | undefined> {
    const known = (await this.home.reader.receipts([command])).get(command);
    return known && { outcome: 'repeated', first: known.first, last: known.last };
  }

  receipts(commands: readonly string[]): Promise<Map<string, Known>> {
    return this.home.reader.receipts(commands);
  }

  holders(claims: readonly string[]): Promise<Map<string, number>> {
    return this.home.reader.holders(claims);
  }

  head(): Promise<Head> {
    return this.home.reader.head();
  }

  onAppended(listener: (head: Head) => void): () => void {
    return this.queue.onAppended(listener);
  }

  verify(progress?: (walked: number, of: number) => void): Promise<Verdict> {
    return verify(() => this.home.pages(), this.home.readOutside, progress);
  }

  close(): Promise<void> {
    this.closing ??= this.queue.close().then(() => this.home.close());
    return this.closing;
  }
}
