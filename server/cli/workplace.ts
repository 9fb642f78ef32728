/**
 * Where a verb does its work: in the data folder itself, or through the server that
 * has it open. Either way the same can be asked.
 */
import type { Entry } from '../contract/entry.ts';
import type { Answer } from '../contract/figures.ts';
import type { Host, Outcome, Progress } from '../host/host.ts';

export interface ImportAsked {
  readonly kind: string;
  readonly file: string;
  readonly dryRun: boolean;
  /** Column by heading of the file; the one remembered when left out. */
  readonly mapping?: Readonly<Record<string, string>>;
}

/** What walking the log and the pictures found. */
export type Verified = Awaited<ReturnType<Host['verify']>>;

export interface Workplace {
  import(asked: ImportAsked, progress: Progress): Promise<unknown>;
  report(plugin: string, report: string, params: Readonly<Record<string, string>>): Promise<Answer>;
  paper(plugin: string, paper: string, params: Readonly<Record<string, string>>): Promise<Uint8Array>;
  verify(progress: Progress): Promise<Verified>;
  rebuild(plugin: string | undefined, progress: Progress): Promise<void>;
  /** Makes a verified backup in the folder, which must not be there yet; resolves with the number of entries. */
  backup(into: string, progress: Progress): Promise<number>;
  forget(person: string): Promise<Outcome>;
  /** Sets the passphrase of the network. */
  passphrase(said: string): Promise<void>;
  /** Names of all pictures that are kept, in order. */
  pictures(): Promise<readonly string[]>;
  /** A picture by its name. */
  picture(sha256: string): Promise<Uint8Array>;
  /** A page of the log. */
  entries(after: number, limit: number): Promise<readonly Entry[]>;
  close(): Promise<void>;
}
