/** The chain's rules, one entry after the other. */
import { canonical } from './canonical.ts';
import { NOTHING, type Sealed, sha256 } from './chain.ts';
import type { Head, Verdict } from './log.ts';

export interface EntryRow {
  readonly seq: number;
  readonly command: string;
  readonly part: number;
  readonly body: string;
  readonly hash: string;
  /** Seq that the index of commands has for this command and part. */
  readonly indexed: number | null;
}

export class ChainWalk {
  head: Head = NOTHING;
  /** How many streams the entries name in all. */
  streamsNamed = 0;
  private readonly held = new Map<string, number>();
  private last: { command: string; part: number; recordedAt: string } = {
    command: '',
    part: -1,
    recordedAt: '',
  };

  get count(): number {
    return this.head.count;
  }

  get claimsHeld(): number {
    return this.held.size;
  }

  /** Takes the next entry in, or says why it does not fit. */
  step(row: EntryRow): string | undefined {
    const seq = this.count + 1;
    if (row.seq !== seq) return `it is missing: entry ${row.seq} comes next`;
    if (sha256(row.body) !== row.hash) return 'its body and its hash do not fit each other';
    const sealed = parse(row.body);
    if (sealed === undefined) return 'its body is not canonical JSON';
    const why = this.misfit(row, sealed);
    if (why !== undefined) return why;
    this.take(row, sealed);
    return undefined;
  }

  private misfit(row: EntryRow, sealed: Sealed): string | undefined {
    if (sealed.previous !== this.head.hash) return 'it does not carry on from the entry before it';
    if (sealed.seq !== row.seq) return `its body says that it is entry ${sealed.seq}`;
    if (sealed.command !== row.command || sealed.part !== row.part)
      return 'its body belongs to another command';
    if (row.indexed !== row.seq) return 'the index of commands does not lead to it';
    const part = sealed.command === this.last.command ? this.last.part + 1 : 0;
    if (sealed.part !== part) return `it is part ${sealed.part} of its command where part ${part} is due`;
    if ((part === 0) !== (typeof sealed.fingerprint === 'string'))
      return "its command's fingerprint is misplaced";
    if (sealed.recordedAt < this.last.recordedAt) return 'it was recorded before the entry in front of it';
    return undefined;
  }

  private take(row: EntryRow, sealed: Sealed): void {
    this.head = { count: row.seq, hash: row.hash };
    this.last = { command: sealed.command, part: sealed.part, recordedAt: sealed.recordedAt };
    this.streamsNamed += sealed.streams.length;
    for (const claim of sealed.releases ?? []) this.held.delete(claim);
    for (const claim of sealed.claims ?? []) this.held.set(claim, row.seq);
  }

  /** Holds the table of claims against what the entries say. */
  compareClaims(table: ReadonlyMap<string, number>): Verdict['broken'] {
    for (const [claim, seq] of this.held) {
      if (table.get(claim) !== seq)
        return { seq, why: `it holds ${claim}, which the table of claims does not say` };
    }
    for (const [claim, seq] of table) {
      if (!this.held.has(claim))
        return { seq, why: `the table of claims gives it ${claim}, which it does not hold` };
    }
    return undefined;
  }
}

function parse(body: string): Sealed | undefined {
  try {
    const value = JSON.parse(body) as Sealed;
    return canonical(value, 'body') === body ? value : undefined;
  } catch {
    return undefined;
  }
}
