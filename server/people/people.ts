/** The erasable store: names and free text, apart from the log. */
import type { TextRef } from '../contract/text.ts';

export interface TextToKeep {
  /** Derived from the command and the field, so that a repeat keeps one text. */
  readonly id: string;
  readonly text: string;
  /** The person it is about. */
  readonly person?: string;
  /** It is that person's name. */
  readonly isName?: boolean;
  /** Streams it speaks of, for search. */
  readonly streams?: readonly string[];
}

/** A text with the reference that the log will hold; not kept yet. */
export interface Referred extends TextToKeep {
  readonly ref: TextRef;
  /** Of the reference's hash; the first one where the text was kept before. */
  readonly salt: string;
  /** Whether a text is kept under this id already. An erased one counts as the same text. */
  readonly kept: 'no' | 'the same' | 'another';
}

export interface People {
  /** The references that texts would get, so that a decision can be made before anything is kept. */
  refer(texts: readonly TextToKeep[]): Promise<Referred[]>;
  /** Keeps texts durably before it resolves. The same id again returns the first reference. */
  keep(texts: readonly (TextToKeep | Referred)[]): Promise<TextRef[]>;
  /** Drops texts whose command was refused. */
  drop(ids: readonly string[]): Promise<void>;
  /** Texts by id; an erased one is null. */
  read(ids: readonly string[]): Promise<Map<string, string | null>>;
  /** Names by person id; a forgotten one is null. */
  names(persons: readonly string[]): Promise<Map<string, string | null>>;
  /** Persons whose name contains the words. */
  find(words: string): Promise<{ person: string; name: string }[]>;
  /** Persons about whom exactly this text is kept, without regard to case; the earliest first. */
  about(text: string): Promise<string[]>;
  /** Streams whose texts contain all the words. */
  search(words: string): Promise<string[]>;
  /** Erases the person's name and every text about them, or that speaks of the streams given. */
  erase(person: string, streams: readonly string[]): Promise<number>;
  close(): Promise<void>;
}
