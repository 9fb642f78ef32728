/** What the log and its outside head say of each other when the log is opened, and before each write. */
import { NOTHING, type Sealed, sha256 } from './chain.ts';
import type { Head } from './log.ts';
import { type Bytes, text } from './text.ts';

/**
 * Why the log must not be written, in a sentence; undefined when the outside head is an ancestor of
 * the log's head, or the same.
 * @param hashThere of the log's entry at the outside head's count
 */
export function disagreement(outside: Head, head: Head, hashThere: string | undefined): string | undefined {
  if (outside.count > head.count) return loss(head.count, outside.count);
  const hash = outside.count === 0 ? NOTHING.hash : hashThere;
  if (hash !== outside.hash) return `Entry ${outside.count} of the log is not the one that was acknowledged.`;
  return undefined;
}

/** The log has fewer entries than were acknowledged. */
export function loss(found: number, acknowledged: number): string {
  const gone = acknowledged - found;
  const last = gone === 1 ? 'the last one is missing' : `the last ${gone} are missing`;
  return `The log holds ${found} entries, but ${acknowledged} were acknowledged: ${last}.`;
}

export function missingOutside(headFile: string, head: Head): string {
  return `The outside head ${headFile} is missing, so nobody can say whether the log's ${head.count} entries are all there were.`;
}

export interface TailRow {
  readonly seq: number;
  readonly body: Bytes;
  readonly hash: Bytes;
}

/** What was committed after the outside head was written must carry on from it. */
export class Tail {
  constructor(public head: Head) {}

  /** Takes the next entry in, or says in a sentence why it does not fit. */
  step(row: TailRow): string | undefined {
    const seq = this.head.count + 1;
    if (row.seq !== seq || !this.fits(row))
      return `Entry ${seq} of the log does not carry on from the one before it.`;
    this.head = { count: seq, hash: text(row.hash) };
    return undefined;
  }

  private fits(row: TailRow): boolean {
    try {
      const body = text(row.body);
      return sha256(body) === text(row.hash) && (JSON.parse(body) as Sealed).previous === this.head.hash;
    } catch {
      return false;
    }
  }
}
