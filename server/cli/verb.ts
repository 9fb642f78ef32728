/** What a verb of the command line is, and where it stands while it works. */
import type { ParseArgsConfig } from 'node:util';
import type { Parts } from './parts.ts';

export interface Terminal {
  out(text: string): void;
  err(text: string): void;
  /** A person looks on: progress may be drawn. */
  readonly watched: boolean;
  /** Asks for something that is not to be seen while it is typed; undefined when nothing more comes in. */
  secret(question: string): Promise<string | undefined>;
}

/** Everything a verb gets from outside. */
export interface Desk {
  readonly terminal: Terminal;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly cwd: string;
  readonly clock: () => Date;
  readonly parts: Parts;
  /** Resolves when the operator or the system asks to stop; without it, asking ends the process at once. */
  stopped(): Promise<void>;
}

export interface Words {
  /** What stands after the verb, options left out. */
  readonly rest: readonly string[];
  /** Text of an option; its last when it was given several times. */
  text(option: string): string | undefined;
  /** Every text of an option. */
  texts(option: string): readonly string[];
  flag(option: string): boolean;
  /** Options that the verb did not declare, where it takes any. */
  readonly others: Readonly<Record<string, string>>;
}

export interface Verb {
  readonly name: string;
  /** The words as they are typed, without `wareboard`. */
  readonly usage: string;
  /** One sentence. */
  readonly about: string;
  readonly options?: ParseArgsConfig['options'];
  /** Takes options of any name, each with a value. */
  readonly anyOption?: boolean;
  /** Resolves with the exit code; throws WrongWords (2) or anything else (1, its message is the reason). */
  run(words: Words, desk: Desk): Promise<number>;
}

/** The words were wrong: exit 2. */
export class WrongWords extends Error {
  override readonly name = 'WrongWords';
}

/** It was refused or failed for a reason that the operator can read: exit 1. */
export class Failed extends Error {
  override readonly name = 'Failed';
}
