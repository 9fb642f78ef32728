/**
 * The whole plugin contract. A plugin is one declaration: the shapes of its
 * events, the kinds of stream they fold in, its commands, its projections and
 * its reports and its papers. The log records, plugins compute; nothing here does any I/O.
 * The studio itself is declared with it (server/studio).
 */
import type { SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { SqliteRemoteDatabase } from 'drizzle-orm/sqlite-proxy';
import type { z } from 'zod';
import type { Entry } from './entry.ts';
import type { Answer } from './figures.ts';
import type { FileImport } from './file-import.ts';
import type { GivenPaper, Handout } from './handout.ts';
import type { PluginJob, Service } from './job.ts';
import type { Paper } from './paper.ts';
import type { Decision, StreamKind, StreamRef, Streams } from './streams.ts';
import type { Telling } from './telling.ts';
import type { TextRef } from './text.ts';

/** The version of this contract; a plugin made for another one is refused at boot by name. */
export const CONTRACT = 1;

/** The shape of an event's data, and how older shapes become it. */
export interface EventShape<Data = unknown> {
  /** The present shape. Its version is one more than the number of `upcasts`. */
  readonly shape: z.ZodType<Data>;
  /** `upcasts[0]` brings version 1 to 2, and so on. A changed meaning gets a new name instead. */
  readonly upcasts?: readonly ((data: unknown) => unknown)[];
  /** Where the event stands within a day when only the day is known: lower comes first. */
  readonly rank: number | ((data: Data) => number);
  /** SHA-256 of every file that the data speaks of: they are backed up, verified, and erased with a person. */
  readonly files?: (data: Data) => readonly string[];
}

/** When and under which command id a decision is made: all it knows of time and chance. */
export interface At {
  readonly happenedAt: string;
  readonly command: string;
  /** From 0; counts up when a claim it chose was taken, so that it can choose another. */
  readonly attempt: number;
}

export interface Command<Input = unknown> {
  /** What the potter does, as a plain verb and its object. */
  readonly title: string;
  readonly input: z.ZodType<Input>;
  /** Top-level input fields with free text: the host puts them into the erasable store and hands `decide` a TextRef. */
  readonly texts?: readonly string[];
  /** Id of the person that the texts are about, when they name one. */
  readonly about?: (input: Input) => string | undefined;
  /** SHA-256 of every file the input names: the host refuses the command unless each is kept. The plugin wants 'files'. */
  readonly files?: (input: Input) => readonly string[];
  /**
   * The streams the decision needs. Called again with what is loaded so far until it asks
   * for nothing new (a firing first, then the pieces in it).
   */
  readonly streams: (input: Input, loaded: Streams) => readonly string[];
  /** What is recorded, or why nothing is. An empty list is a legal answer: it was so already. */
  readonly decide: (input: Input, streams: Streams, at: At) => Decision;
  /**
   * How what another device recorded in the meantime (the entries of one command) stands to this:
   * it says the same, or both cannot be true; undefined where they have nothing to do with each other.
   */
  readonly beside?: (input: Input, others: readonly Entry[]) => 'alike' | 'against' | undefined;
}

export type Row = Readonly<Record<string, string | number | null>>;

/** Which rows of its own tables a plugin keeps for a stream in a given state. Pure. */
export interface Projection<State = unknown> {
  /** Raise it when `rows` or a table changes: the read model is rebuilt before it is served. */
  readonly version: number;
  /** Prefix of the stream kind it reads; its own or one of a plugin it needs. */
  readonly of: string;
  /** Made with `facts` or `cells`. */
  readonly tables: Readonly<Record<string, SQLiteTable>>;
  /** Rows by table name; a table left out has none. `key` is the stream's name without its prefix. */
  readonly rows: (state: State, key: string) => Readonly<Record<string, readonly Row[]>>;
}

/** One entry of a stream's story. */
export interface StoryEntry {
  readonly entry: Entry;
  /** Seq of the entry that struck it out, if one did. */
  readonly struckBy?: number;
}

export interface Settings {
  /** The studio's name. */
  readonly studio: string;
  /** IANA zone of the studio's days. */
  readonly zone: string;
  /** ISO 4217. */
  readonly currency: string;
  /** 'MM-DD' on which the studio's year starts. */
  readonly yearStart: string;
}

/** A picture in the shape of a paper's mark. */
export interface PictureForPaper {
  readonly type: 'image/jpeg' | 'image/png';
  readonly base64: string;
}

/** What a report can ask of the host: its own tables, and the story of a stream. */
export interface Ask {
  /** Runs SQL on the plugin's own read model, as it is or as it was. */
  query<R = Record<string, unknown>>(sql: string, params?: readonly (string | number | null)[]): Promise<R[]>;
  /** The same read model behind drizzle. */
  readonly db: SqliteRemoteDatabase;
  /** The entries of a stream in the order they happened, struck ones marked. */
  story(stream: string): Promise<StoryEntry[]>;
  /** The folded state of a stream. */
  state<State>(kind: StreamRef<State>, key: string): Promise<State>;
  /** What erasable texts say, by their ids; null for an erased one. Only for what is made of the words themselves: an address put in order, a message. */
  texts(refs: readonly TextRef[]): Promise<Map<string, string | null>>;
  /** Ids of the streams whose erasable texts contain all the words. */
  textSearch(words: string): Promise<string[]>;
  /**
   * A picture that is kept, as a paper can show it; undefined where there is none or it was erased.
   * There only for a plugin that wants 'files'.
   */
  picture?(sha256: string): Promise<PictureForPaper | undefined>;
  readonly settings: Settings;
  /** Today in the studio's zone, or the day that is asked about (as-at). */
  readonly today: string;
  /** Seq of the last entry that these rows speak of: the same past at the same position has the same rows. */
  readonly position: number;
  /** Which past is asked about, as a key; '' for the present. */
  readonly past: string;
  /**
   * What `make` gives, kept until one of the tables named changes (any of the plugin's when none is
   * named). `key` holds all else that it depends on: the input, the settings, the day. What is kept
   * is shared: it must not be changed.
   */
  kept<T>(key: string, make: () => Promise<T>, tables?: readonly string[]): Promise<T>;
}

/** What `run` gives; the host adds the report's name. */
export type Answered = Omit<Answer, 'report' | 'from' | 'to'> & { from?: string | null; to?: string | null };

export interface Report<Input = unknown> {
  readonly title: string;
  /** From a query string: every field is text on the way in (use z.coerce or a pipe). */
  readonly input: z.ZodType<Input>;
  /** Reached from another report or page only, and not listed among the reports to choose from. */
  readonly unlisted?: boolean;
  /**
   * What its rows are for: lines of Today (`waitingRow`), or days of the calendar (`datedRow`), both in
   * server/contract/telling.ts. It is asked without any input.
   */
  readonly tells?: Telling;
  readonly run: (ask: Ask, input: Input) => Promise<Answered>;
}

/** A paper that can be printed: a plain description, which the host draws as a PDF. */
export interface PaperOffer<Input = unknown> {
  readonly title: string;
  /** From a query string, like a report's. */
  readonly input: z.ZodType<Input>;
  /** Comes from a page that knows what to print, and is not listed among the papers to choose from. */
  readonly unlisted?: boolean;
  /** That it can be handed out by whichever plugin names it: with an order of the shop, say. */
  readonly given?: GivenPaper;
  /** May throw `PaperRefused` where what is asked for cannot be printed. */
  readonly run: (ask: Ask, input: Input) => Promise<Paper>;
}

/** What was asked for cannot be answered; the sentence says why, and what could be. Thrown by `run`. */
export class AskRefused extends Error {
  override readonly name: string = 'AskRefused';
  constructor(
    sentence: string,
    /** Input field at fault. */
    readonly field?: string,
  ) {
    super(sentence);
  }
}

/** What was asked for cannot be printed. */
export class PaperRefused extends AskRefused {
  override readonly name = 'PaperRefused';
}

export interface Plugin {
  /** Names its read model and its reports; kebab-case. */
  readonly id: string;
  readonly contract: number;
  /** One sentence: what it computes. */
  readonly about: string;
  /** Ids of the plugins whose streams it reads. */
  readonly needs: readonly string[];
  /** Prefixes of the events and commands it adds ('order' for 'order.placed'); unique among plugins. */
  readonly prefixes: readonly string[];
  readonly events?: Readonly<Record<string, EventShape>>;
  readonly streams?: readonly StreamKind[];
  readonly commands?: Readonly<Record<string, Command>>;
  readonly projections?: Readonly<Record<string, Projection>>;
  readonly reports?: Readonly<Record<string, Report>>;
  readonly papers?: Readonly<Record<string, PaperOffer>>;
  /** Names of the streams that a device keeps, to work for days without the network; the most needed first. */
  readonly day?: (ask: Ask) => Promise<readonly string[]>;
  /** By kind of file: `import KIND FILE`. */
  readonly imports?: Readonly<Record<string, FileImport>>;
  readonly jobs?: Readonly<Record<string, PluginJob>>;
  /** What can be fetched from outside by a signed link. */
  readonly handouts?: Readonly<Record<string, Handout>>;
  /** What it needs of the host beside the log: its jobs the first two, its commands and papers 'files'. */
  readonly wants?: readonly Service[];
  /** Streams whose free texts are erased with a person, besides the texts that are about them by name. */
  readonly concerning?: (ask: Ask, person: string) => Promise<readonly string[]>;
}

/* The five makers below only carry types: what goes in comes out. */

// biome-ignore lint/suspicious/noExplicitAny: a table of shapes of different types is only uniform as any
type Any = any;

export const event = <Data>(shape: EventShape<Data>): EventShape<Data> => shape;
export const command = <Input>(made: Command<Input>): Command<Input> => made;
export const projection = <State>(made: Projection<State>): Projection<State> => made;
export const report = <Input>(made: Report<Input>): Report<Input> => made;
export const paper = <Input>(made: PaperOffer<Input>): PaperOffer<Input> => made;

/** Declares a plugin; `host` checks it at boot and freezes it. */
export function definePlugin(plugin: {
  readonly id: string;
  readonly contract: number;
  readonly about: string;
  readonly needs: readonly string[];
  readonly prefixes: readonly string[];
  readonly events?: Readonly<Record<string, EventShape<Any>>>;
  readonly streams?: readonly StreamKind<Any>[];
  readonly commands?: Readonly<Record<string, Command<Any>>>;
  readonly projections?: Readonly<Record<string, Projection<Any>>>;
  readonly reports?: Readonly<Record<string, Report<Any>>>;
  readonly papers?: Readonly<Record<string, PaperOffer<Any>>>;
  readonly day?: Plugin['day'];
  readonly imports?: Readonly<Record<string, FileImport>>;
  readonly jobs?: Readonly<Record<string, PluginJob>>;
  readonly handouts?: Readonly<Record<string, Handout>>;
  readonly wants?: readonly Service[];
  readonly concerning?: (ask: Ask, person: string) => Promise<readonly string[]>;
}): Plugin {
  return plugin;
}
