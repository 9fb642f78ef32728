/** Timed work of a plugin: fetching, and what falls due by itself. It records by commands, like everybody. */
import type { Look } from './look.ts';

/** What a plugin asks of the host: 'requests' and 'secrets' for its jobs, 'files' for pictures; what it did not ask for is not there. */
export type Service = 'requests' | 'secrets' | 'files';

export interface Asked {
  readonly headers?: Readonly<Record<string, string>>;
}

/** What came back, read as text up to a limit. */
export interface Received {
  readonly status: number;
  header(name: string): string | undefined;
  readonly text: string;
}

/** A request that brought no answer: no connection, too slow, too large. `message` is a sentence. */
export class NoAnswer extends Error {
  override readonly name = 'NoAnswer';
}

export interface Work extends Look {
  /** Decides and records; the same `knownBy` again is not recorded again. Resolves with a refusal's sentence, or undefined. */
  record(step: {
    readonly command: string;
    readonly input: unknown;
    readonly happenedAt?: string;
    readonly knownBy: readonly unknown[];
  }): Promise<string | undefined>;
  /** A report of this plugin's own. */
  report(
    name: string,
    params?: Readonly<Record<string, string>>,
  ): Promise<readonly Record<string, unknown>[]>;
  /** GET over https, or http to this machine. @throws NoAnswer */
  get?(url: string, asked?: Asked): Promise<Received>;
  /** What the user gave for this plugin to keep to itself (a key); kept apart from the log. */
  secret?(name: string): string | undefined;
  readonly now: Date;
}

/** How a job went. */
export interface Went {
  /** What was done, for the user. */
  readonly sentence: string;
  /** Seconds after which to try again, earlier or later than usual. */
  readonly again?: number;
  readonly failed?: boolean;
}

/** What the user gives it once, on the page that lists timed work; `secret` hands it to the job. */
export interface Given {
  readonly name: string;
  /** An address is shown again on the page (what stands behind its ? is not); a key never. */
  readonly kind: 'address' | 'key';
  readonly label: string;
  readonly hint?: string;
}

export interface PluginJob {
  readonly title: string;
  /** A sentence: what it does. */
  readonly about?: string;
  /** Minutes between two times, until the user chooses. */
  readonly every: number;
  /** Without the first of these nothing is asked. The plugin wants 'secrets'. */
  readonly takes?: readonly Given[];
  readonly run: (work: Work) => Promise<Went>;
}
