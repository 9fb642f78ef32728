/**
 * Judges a group of appends one after the other against what the log holds, and seals the entries of
 * those that stand. Pure: both homes load the state, judge here, and write the rows in one transaction.
 */
import { seal } from './chain.ts';
import { type Append, ClaimTaken, CommandReused, type Receipt, StreamMoved } from './log.ts';
import type { Prepared, PreparedEntry } from './prepare.ts';

/** What the log holds, as far as the group asks; changed by the judging as the appends of the group stand. */
export interface State {
  count: number;
  hash: string;
  /** Of the last entry; '' when the log is empty. */
  recordedAt: string;
  readonly commands: Map<string, { fingerprint: string; first: number; last: number }>;
  /** Number of entries of each stream that the group names. */
  readonly streams: Map<string, number>;
  /** Claims held now, with the entry that holds them. */
  readonly claims: Map<string, number>;
}

/** A result that crosses to another thread, where errors would lose their class. */
export type Outcome =
  | { readonly kind: 'receipt'; readonly receipt: Receipt }
  | { readonly kind: 'moved'; readonly stream: string; readonly expected: number; readonly actual: number }
  | { readonly kind: 'taken'; readonly claim: string; readonly heldBy: number }
  | { readonly kind: 'reused' };

/** One entry and its index rows, to be written in this order: entry, streams, released, claimed. */
export interface Row {
  readonly seq: number;
  readonly command: string;
  readonly part: number;
  readonly body: string;
  readonly hash: string;
  readonly streams: readonly (readonly [stream: string, position: number])[];
  readonly released: readonly string[];
  readonly claimed: readonly string[];
}

/** @param now UTC instant; entries get it, or the last entry's instant where the clock went back */
export function judge(
  group: readonly Prepared[],
  state: State,
  now: string,
): { outcomes: Outcome[]; rows: Row[] } {
  const rows: Row[] = [];
  if (now > state.recordedAt) state.recordedAt = now;
  const outcomes = group.map((append) => judgeOne(append, state, rows));
  return { outcomes, rows };
}

function judgeOne(append: Prepared, state: State, rows: Row[]): Outcome {
  const known = state.commands.get(append.command);
  if (known !== undefined) {
    if (known.fingerprint !== append.fingerprint) return { kind: 'reused' };
    return { kind: 'receipt', receipt: { outcome: 'repeated', first: known.first, last: known.last } };
  }
  for (const [stream, expected] of append.expect) {
    const actual = state.streams.get(stream) ?? 0;
    if (actual !== expected) return { kind: 'moved', stream, expected, actual };
  }
  if (append.first !== undefined && append.first !== state.count + 1)
    return { kind: 'moved', stream: 'log', expected: append.first - 1, actual: state.count };
  const taken = firstTaken(append, state);
  if (taken !== undefined) return taken;
  const first = state.count + 1;
  for (const entry of append.entries) rows.push(place(append.command, entry, state));
  const receipt: Receipt = { outcome: 'recorded', first, last: state.count };
  state.commands.set(append.command, { fingerprint: append.fingerprint, first, last: state.count });
  return { kind: 'receipt', receipt };
}

/** Follows the append's entries in order, since one may release what a later one claims. */
function firstTaken(append: Prepared, state: State): Outcome | undefined {
  let seq = state.count;
  const changed = new Map<string, number | undefined>();
  for (const { claims, releases } of append.entries) {
    seq += 1;
    for (const claim of releases) changed.set(claim, undefined);
    for (const claim of claims) {
      const heldBy = changed.has(claim) ? changed.get(claim) : state.claims.get(claim);
      if (heldBy !== undefined) return { kind: 'taken', claim, heldBy };
      changed.set(claim, seq);
    }
  }
  return undefined;
}

function place(command: string, entry: PreparedEntry, state: State): Row {
  const seq = state.count + 1;
  const { body, hash } = seal(entry, seq, state.recordedAt, state.hash);
  state.count = seq;
  state.hash = hash;
  const streams = entry.streams.map((stream) => {
    const position = (state.streams.get(stream) ?? 0) + 1;
    state.streams.set(stream, position);
    return [stream, position] as const;
  });
  const released = entry.releases.filter((claim) => state.claims.delete(claim));
  for (const claim of entry.claims) state.claims.set(claim, seq);
  return { seq, command, part: entry.part, body, hash, streams, released, claimed: entry.claims };
}

/** The receipt, or the error that the caller meets. */
export function answer(outcome: Outcome, append: Append): Receipt | Error {
  switch (outcome.kind) {
    case 'receipt':
      return outcome.receipt;
    case 'moved':
      return new StreamMoved(outcome.stream, outcome.expected, outcome.actual);
    case 'taken':
      return new ClaimTaken(outcome.claim, outcome.heldBy);
    case 'reused':
      return new CommandReused(append.command);
  }
}
