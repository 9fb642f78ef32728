/**
 * A kind of stream: how the entries of one stream fold into a state, and which
 * entry is legal next. Pure: no clock, no ids, no database.
 */
import type { Entry, NewEntry } from './entry.ts';

export interface StreamKind<State = unknown> {
  /** Prefix of the stream names: 'piece' for 'piece:0190…'. Unique among plugins. */
  readonly prefix: string;
  /** The state before any entry; `key` is the stream's name without its prefix. */
  readonly initial: (key: string) => State;
  /** The state after the entry. Never changes the state it is given. Unknown entries leave it as it is. */
  readonly evolve: (state: State, entry: Entry) => State;
  /** Why the entry cannot follow this state, and what could; undefined where it can. */
  readonly legal: (state: State, entry: Entry) => string | undefined;
}

/** What is needed to read a stream: a plugin reads so those of the plugins that it needs. */
export type StreamRef<State = unknown> = Pick<StreamKind<State>, 'prefix' | 'initial'>;

/** The name of a stream. */
export const streamName = (kind: Pick<StreamKind, 'prefix'>, key: string): string => `${kind.prefix}:${key}`;

export const streamKey = (name: string): string => name.slice(name.indexOf(':') + 1);

export const streamPrefix = (name: string): string => name.slice(0, name.indexOf(':'));

/** The folded states that a command is decided on. */
export interface Streams {
  /** State of one stream at the moment the command speaks of. */
  of<State>(kind: StreamRef<State>, key: string): State;
  /** State of one stream with all that is recorded, later happenings included. */
  latest<State>(kind: StreamRef<State>, key: string): State;
}

/** A command that is not to be: nothing is recorded. */
export interface Refusal {
  readonly refused: true;
  /** Stable id, kebab-case ('not-fired-yet'). */
  readonly code: string;
  /** Why, and what would be legal, in the potter's words. */
  readonly sentence: string;
  /** Input field at fault, as a path ('places.3.piece'). */
  readonly field?: string;
}

export const refuse = (code: string, sentence: string, field?: string): Refusal => ({
  refused: true,
  code,
  sentence,
  ...(field === undefined ? {} : { field }),
});

/** What a decision may record: the host adds when it happened and the version of the shape. */
export type Recorded = Pick<NewEntry, 'name' | 'streams' | 'claims' | 'releases' | 'data'>;
export type Decision = readonly Recorded[] | Refusal;

export const isRefusal = (decision: Decision): decision is Refusal => !Array.isArray(decision);
