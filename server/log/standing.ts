/** What the log and its outside head say of each other when the log is opened, and before each write. */
import { NOTHING, type Sealed, sha256 } from './chain.ts';
import type { Head } from './log.ts';

/**
 * Why the log must not be written, in a sentence; undefined when the outside head is an ancestor of
 * the log's head, or the same.
 * @param hashThere of the log's entry at the outside head's count
 */
export function disagreement(outside: Head, head: Head, hashThere: string | undefined): string | undefined {
  if (outside.count > head.count)
    return `The log holds ${head.count} entries, but ${outside.count} were acknowledged: the last ${outside.count - head.count} are missing.`;
  const hash = outside.count === 0 ? NOTHING.hash : hashThere;
  if (hash !== outside.hash) return `Entry ${outside.count} of the log is not the one that was acknowledged.`;
  return undefined;
}

export function missingOutside(headFile: string, head: Head): string {
  return `The outside head ${headFile} is missing, so nobody can say whether the log's ${head.count} entries are all there were.`;
}

export interface TailRow {
  readonly seq: number;
  readonly body: string;
  readonly hash: string;
}

/** What was committed after the outside head was written must carry on from it. */
export class Tail {
  constructor(public head: Head) {}

  /** Takes the next entry in, or says in a sentence why it does not fit. */
  step(row: TailRow): string | undefined {
    const seq = this.head.count + 1;
    if (row.seq !== seq || sha256(row.body) !== row.hash || previousOf(row.body) !== this.head.hash)
      return `Entry ${seq} of the log does not carry on from the one before it.`;
    this.head = { count: seq, hash: row.hash };
    return undefined;
  }
}

function previousOf(body: string): string | undefined {
  try {
    return (JSON.parse(body) as Sealed).previous;
  } catch {
    return undefined;
  }
}
