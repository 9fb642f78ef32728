/**
 * The log's one interface. It has two homes: an embedded libsql file
 * (`server/log/embedded`) and a libsql server over http (`server/log/remote`).
 */
import type { Entry, NewEntry } from '../contract/entry.ts';

/** Everything one command records, in one durable transaction or not at all. */
export interface Append {
  /** Client-made UUIDv7; appending it again records nothing and returns the first receipt. */
  readonly command: string;
  /** SHA-256 (hex) of the command's canonical JSON, to tell a repeat from a reused id. */
  readonly fingerprint: string;
  readonly who: string;
  readonly device: string;
  /** The device's own clock when it was noted. */
  readonly clock?: string;
  /** How many entries each named stream must hold at this moment. Streams not named are not checked. */
  readonly expect: Readonly<Record<string, number>>;
  /**
   * The seq that its first entry must get, for a decision that rests on entries which go before it in
   * the same `appendAll`: their seqs were reckoned ahead. Not checked when absent.
   */
  readonly first?: number;
  readonly entries: readonly NewEntry[];
}

export interface Receipt {
  readonly outcome: 'recorded' | 'repeated';
  /** Seq of the first and of the last entry of the command. */
  readonly first: number;
  readonly last: number;
}

/** A receipt that was looked up, with what the command was. */
export interface Known extends Receipt {
  readonly fingerprint: string;
}

/** A stream, or the whole log ('log'), has other entries than the command was decided on: load it and decide again. */
export class StreamMoved extends Error {
  override readonly name = 'StreamMoved';
  constructor(
    readonly stream: string,
    readonly expected: number,
    readonly actual: number,
  ) {
    super(`${stream} holds ${actual} entries, not ${expected}`);
  }
}

/** The claim is held by another entry (a foot mark that is already on a pot). */
export class ClaimTaken extends Error {
  override readonly name = 'ClaimTaken';
  constructor(
    readonly claim: string,
    readonly heldBy: number,
  ) {
    super(`${claim} is held by entry ${heldBy}`);
  }
}

/** The command id was used before for something else. */
export class CommandReused extends Error {
  override readonly name = 'CommandReused';
  constructor(readonly command: string) {
    super(`command ${command} was used before for something else`);
  }
}

/** Text, number or key that the log cannot keep without changing it. */
export class Unkeepable extends Error {
  override readonly name = 'Unkeepable';
  constructor(
    readonly path: string,
    readonly why: string,
  ) {
    super(`${path}: ${why}`);
  }
}

/**
 * The log has lost or changed something that was acknowledged. It can still be read and verified,
 * but takes nothing more until it is restored.
 */
export class LogDamaged extends Error {
  override readonly name = 'LogDamaged';
}

/** Nothing of the append is promised: the log could not be written. The same command may be sent again. */
export class LogUnavailable extends Error {
  override readonly name = 'LogUnavailable';
}

export interface Head {
  readonly count: number;
  /** Hex SHA-256 of the last entry; 64 zeros when the log is empty. */
  readonly hash: string;
}

export interface Stream {
  /** In log order. */
  readonly entries: readonly Entry[];
  /** How many entries the stream holds. */
  readonly version: number;
}

/** What walking the whole chain found. `broken` and `missing` are empty for a sound log. */
export interface Verdict {
  readonly entries: number;
  readonly head: Head;
  /** The first entry that does not fit, and how. */
  readonly broken?: { readonly seq: number; readonly why: string };
  /** Entries that the outside head knows of and the log has lost. */
  readonly missing?: { readonly expected: number; readonly found: number };
}

export interface EventLog {
  /** Records the command's entries durably (database and outside head synced) before it resolves. */
  append(append: Append): Promise<Receipt>;
  /**
   * Records many commands in as few transactions as sensible. Each is judged on its own: the
   * result holds a receipt or the error in the place of its command.
   */
  appendAll(appends: readonly Append[]): Promise<(Receipt | Error)[]>;
  /** The entries of each stream; an unknown stream is empty. */
  streams(names: readonly string[]): Promise<Map<string, Stream>>;
  /** Up to `limit` entries after `after`, in order. */
  read(after: number, limit: number): Promise<Entry[]>;
  /** The receipt of a command already recorded. */
  receipt(command: string): Promise<Receipt | undefined>;
  /** The receipts of those commands that are recorded already. */
  receipts(commands: readonly string[]): Promise<Map<string, Known>>;
  /** Which of the claims are held, and by which entry. */
  holders(claims: readonly string[]): Promise<Map<string, number>>;
  head(): Promise<Head>;
  /** Called after entries have become durable, in order; returns the way to stop. */
  onAppended(listener: (head: Head) => void): () => void;
  /** Walks the chain, calling `progress` with the entries walked so far. */
  verify(progress?: (walked: number, of: number) => void): Promise<Verdict>;
  close(): Promise<void>;
}

/** The only way the log learns the time. */
export type Clock = () => Date;
