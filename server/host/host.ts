/**
 * What the outside (http, command line, import) sees of the running studio:
 * commands go in, reports come out. Built by `openHost` in open.ts.
 */
import type { Entry } from '../contract/entry.ts';
import type { Answer } from '../contract/figures.ts';
import type { Settings, StoryEntry } from '../contract/plugin.ts';
import type { Refusal } from '../contract/streams.ts';
import type { Documents } from '../files/documents.ts';
import type { Pictures } from '../files/pictures.ts';
import type { EventLog, Verdict } from '../log/log.ts';
import type { People } from '../people/people.ts';
import type { HandoutNow, OfferedPaper } from '../readmodels/handouts.ts';
import type { FilesVerdict } from './files.ts';
import type { Registry } from './registry.ts';

/** One thing the potter asks to record. */
export interface Order {
  /** Client-made UUID; asking again with the same id is harmless. */
  readonly id: string;
  /** Name of the command ('piece.grade'). */
  readonly command: string;
  readonly input: unknown;
  /** Day or moment with offset; now when absent. */
  readonly happenedAt?: string;
  readonly who: string;
  readonly device: string;
  /**
   * What the device's own clock showed when it was noted, with its offset; it stands for `happenedAt`
   * where that is absent, set right by `sent`.
   */
  readonly clock?: string;
  /** What the device's own clock showed when it was sent: so a clock that is wrong shows. */
  readonly sent?: string;
  /** Entries in the log that the device knew of when it was noted; all of them when absent. */
  readonly seen?: number;
}

export type Outcome =
  | {
      readonly outcome: 'recorded' | 'repeated';
      readonly id: string;
      /** Seqs of the first and last entry. */
      readonly first: number;
      readonly last: number;
      /** Seqs of entries that another device recorded in the meantime, and that say the same. */
      readonly alike?: readonly number[];
    }
  /** It was so already; `alike` where another device said so in the meantime. */
  | { readonly outcome: 'unchanged'; readonly id: string; readonly alike?: readonly number[] }
  | {
      readonly outcome: 'refused';
      readonly id: string;
      readonly refusal: Refused;
    };

/** A refusal with what it rests on. */
export interface Refused extends Refusal {
  /** Entries that rest on one that was to be struck out. */
  readonly others?: readonly Resting[];
  /** What other devices recorded of the same thing since the sender last looked: the other side. */
  readonly meanwhile?: readonly Entry[];
}

/** An entry that rests on one that is to be struck out. */
export interface Resting {
  readonly seq: number;
  readonly name: string;
  readonly happenedAt: string;
  /** Why it could not stand without the struck one. */
  readonly why: string;
}

/** `entry.strike`: by entries, or all that one command recorded (Undo). */
export interface StrikeInput {
  readonly seqs?: readonly number[];
  readonly command?: string;
  readonly why?: string;
  /** Strike what rests on it too, in the same append. */
  readonly withResting?: boolean;
}

export interface PrintedPaper {
  /** Of a file, with its ending. */
  readonly name: string;
  readonly pdf: Uint8Array;
}

export interface Past {
  /** What had happened by the end of this day. */
  readonly asAt?: string;
  /** What had been recorded by the end of this day. */
  readonly knownAt?: string;
}

export type Progress = (done: number, of: number) => void;

export interface Host {
  readonly registry: Registry;
  readonly log: EventLog;
  readonly people: People;
  readonly pictures: Pictures;
  /** Beside the pictures, in the same store. */
  readonly documents: Documents;
  settings(): Promise<Settings>;
  /** Decides and records; `entry.strike` is a command like any other. */
  record(order: Order): Promise<Outcome>;
  /** In order, each judged after those before it; grouped into few transactions. */
  recordAll(orders: readonly Order[], progress?: Progress): Promise<Outcome[]>;
  /** What would be recorded, without recording it. */
  foresee(orders: readonly Order[]): Promise<Outcome[]>;
  /** `params` as in a query string; understands as-at and known-at for every report. Waits until the read model holds all that is recorded. */
  report(plugin: string, report: string, params: Readonly<Record<string, string>>): Promise<Answer>;
  /** As with a report; drawn as a PDF. @throws PaperRefused, UnknownPaper, PaperFailed */
  paper(plugin: string, paper: string, params: Readonly<Record<string, string>>): Promise<PrintedPaper>;
  /** How something stands that may be fetched from outside. @throws HandoutFailed */
  handout(plugin: string, handout: string, key: string): Promise<HandoutNow>;
  /** Papers that any plugin may name, to be handed out. @throws HandoutFailed */
  givenPapers(): Promise<readonly OfferedPaper[]>;
  story(stream: string, past?: Past): Promise<StoryEntry[]>;
  /** Throws read models away and builds them again from the log; all of them when no plugin is named. */
  rebuild(plugin?: string, progress?: Progress): Promise<void>;
  /** Names of the streams that a device keeps for work without the network; plugins that failed to say theirs. */
  day(): Promise<{ readonly streams: readonly string[]; readonly failed: readonly string[] }>;
  /** How each plugin's read model stands. */
  standing(): Promise<readonly { plugin: string; checkpoint: number; failed?: string }[]>;
  /** Erases all texts of the person and records that it was done. */
  forget(person: string, order: Pick<Order, 'id' | 'who' | 'device'>): Promise<Outcome>;
  /** Lets go of files of which no entry speaks, a long while after they were sent. @returns how many */
  clearUnspoken(): Promise<number>;
  /** Walks the whole log and every file that it speaks of. */
  verify(progress?: Progress): Promise<Verdict & { readonly files: FilesVerdict }>;
  close(): Promise<void>;
}
