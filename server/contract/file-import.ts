/**
 * Files that a plugin can take in: it names the columns and turns rows into commands. The host reads
 * the file, maps its headings, tells what was recorded before, records, or says what would be recorded.
 */
import type { Look } from './look.ts';

/** A row of the file. Cells are trimmed; empty ones are left out. */
export interface ImportRow {
  readonly line: number;
  readonly cells: Readonly<Partial<Record<string, string>>>;
}

/** What is wrong with a row, and where. `column` is empty when it is the whole row. */
export interface BadCell {
  readonly line: number;
  readonly column: string;
  readonly found: string;
  /** Completes 'expected …'. */
  readonly expected: string;
}

/** One command that a row, or some rows together, come to. */
export interface ImportStep {
  /** The row that is named when it is refused. */
  readonly line: number;
  readonly column: string;
  readonly found?: string;
  readonly command: string;
  readonly input: unknown;
  /** Now, when left out. */
  readonly happenedAt?: string;
  /** Steps of one group follow from each other: after a refusal the rest of them is left out. */
  readonly group: string;
  /** What tells it from every other step; the same again is not recorded again. Never a name or a free text. */
  readonly knownBy: readonly unknown[];
  /** What would be recorded, in the potter's words. */
  readonly sentence: string;
}

export interface ImportPlan {
  /** In the order in which they are to be recorded. */
  readonly steps: readonly ImportStep[];
  readonly bad: readonly BadCell[];
  /** Rows of which everything was recorded before. */
  readonly repeated: number;
  /** What the good rows speak of, by its name in the singular: { order: 30, parcel: 12 }. */
  readonly counts: Readonly<Record<string, number>>;
  /** What is named for the first time, by its kind in the plural. */
  readonly added: Readonly<Record<string, readonly string[]>>;
  readonly notes: readonly string[];
  /** What the file says and somebody struck out here, by its name: left out unless it is asked for again. */
  readonly left?: readonly string[];
}

export interface FileImport {
  readonly title: string;
  readonly columns: readonly string[];
  /** Of each list one heading must be there. */
  readonly needed: readonly (readonly string[])[];
  /** @param again take in again what was struck out here */
  readonly plan: (rows: readonly ImportRow[], look: Look, again: boolean) => Promise<ImportPlan>;
}
