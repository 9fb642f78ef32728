/**
 * What a plugin lets somebody outside the studio fetch by a signed link: a kept document, or a paper of any
 * plugin. The plugin records who may fetch what, until when and how often; the host makes the address, checks
 * it, asks how it stands, and records each handing-out by the plugin's own command.
 */
import { z } from 'zod';
import type { Ask } from './plugin.ts';

const part = z.string().regex(/^[a-z][a-z0-9-]{0,59}$/, 'lower-case words with hyphens');

/** A paper of whichever plugin offers it, by reference: one plugin may name another's without knowing it. */
export const paperRef = z.strictObject({
  plugin: part,
  paper: part,
  input: z.record(z.string().min(1).max(40), z.string().max(200)),
});
export type PaperRef = z.infer<typeof paperRef>;

/** A document by its SHA-256, or a paper that is drawn when it is asked for. */
export type HandedOut = { readonly file: string } | { readonly paper: PaperRef };

/** How something that may be fetched stands. */
export interface HandoutStanding {
  /** What it is, for who fetches it; also the name of the file. */
  readonly title: string;
  readonly what: HandedOut;
  /** Last day on which it can be fetched, in the studio's zone. */
  readonly until: string;
  /** How often it can be fetched, and how often it was. */
  readonly most: number;
  readonly times: number;
  /** Why it is no longer handed out though its time is not over, as a sentence for who fetches it. */
  readonly withdrawn?: string;
  /** Number of the order that it goes with; stands on every page. */
  readonly order?: string;
  /** What may be done with it; stands on every page of a document. A paper says its own. */
  readonly licence?: string;
}

export interface Handout {
  readonly title: string;
  /** Undefined where there never was such a one. */
  readonly look: (ask: Ask, key: string) => Promise<HandoutStanding | undefined>;
  /** The plugin's own command that records one handing-out. It refuses what is over. */
  readonly record: (
    key: string,
    chosen: { readonly size?: string },
  ) => { readonly command: string; readonly input: unknown };
}

/** One went out: sent as a file, or printed here. */
export interface WentOut {
  readonly input: PaperRef['input'];
  readonly size?: string;
  readonly order?: string;
}

/** How a paper can be given to somebody outside by whichever plugin names it. */
export interface GivenPaper {
  /** All that there are: the input that names each, its name, and the address of its page. */
  readonly choices: (
    ask: Ask,
  ) => Promise<readonly { readonly input: PaperRef['input']; readonly title: string; readonly to: string }[]>;
  /** The field of its input that says on what sheet it is drawn, and what it may be; the usual one first. */
  readonly size?: { readonly field: string; readonly names: readonly string[] };
  /** The field of its input that takes the number of an order. */
  readonly order?: string;
  /** The command of its own plugin that notes that one was handed out. */
  readonly wentOut?: (out: WentOut) => { readonly command: string; readonly input: unknown };
}

/** Only carries its type. */
export const handout = (made: Handout): Handout => made;
