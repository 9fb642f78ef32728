/**
 * What a plugin may look at where it is neither deciding, nor projecting, nor reporting: while it takes in
 * a file, and in its timed work. It still records by commands only.
 */
import type { Settings } from './plugin.ts';
import type { StreamRef } from './streams.ts';
import type { TextRef } from './text.ts';

export interface Look {
  readonly settings: Settings;
  /** In the studio's zone. */
  readonly today: string;
  /** The folded states of streams, with all that is recorded. */
  states<State>(kind: StreamRef<State>, keys: readonly string[]): Promise<Map<string, State>>;
  /** How often an event of this name was struck out in each stream; streams without are left out. */
  struckOut(event: string, streams: readonly string[]): Promise<Map<string, number>>;
  /** What the texts say; null for an erased one. */
  texts(refs: readonly TextRef[]): Promise<Map<string, string | null>>;
  /** Ids of the persons about whom exactly this text is kept (an e-mail address); the earliest first. */
  personsAbout(text: string): Promise<readonly string[]>;
  /** A new id. */
  newId(): string;
  /** The same id for the same parts, always. Never a name or a free text. */
  idOf(...parts: readonly unknown[]): string;
}
