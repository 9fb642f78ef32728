/** Asks a plugin for a paper and makes its description whole. */
import { type Paper, paperShape } from '../contract/paper.ts';
import { type Ask, AskRefused, type PaperOffer, type Plugin } from '../contract/plugin.ts';
import type { People } from '../people/people.ts';
import { fillReferences } from './references.ts';

/** No such plugin or paper. */
export class UnknownPaper extends Error {
  override readonly name = 'UnknownPaper';
}

/** The plugin's read model, the paper itself or its drawing failed; the message names them. */
export class PaperFailed extends Error {
  override readonly name = 'PaperFailed';
  constructor(plugin: string, paper: string, cause: unknown) {
    const why = cause instanceof Error ? cause.message : String(cause);
    super(`Paper “${paper}” of plugin “${plugin}” failed: ${why}`, { cause });
  }
}

/** What is to be drawn, and what the host itself writes on it. */
export interface DescribedPaper {
  readonly paper: Paper;
  /** The studio's name. */
  readonly studio: string;
  /** Today in the studio's zone, or the day that is asked about. */
  readonly day: string;
}

export function findPaper(plugins: readonly Plugin[], plugin: string, paper: string): PaperOffer {
  const owner = plugins.find((it) => it.id === plugin);
  if (!owner)
    throw new UnknownPaper(`There is no plugin “${plugin}”. There are: ${list(plugins.map((it) => it.id))}.`);
  const papers = owner.papers ?? {};
  if (!Object.hasOwn(papers, paper))
    throw new UnknownPaper(`“${plugin}” has no paper “${paper}”. It has: ${list(Object.keys(papers))}.`);
  return papers[paper]!;
}

const list = (names: readonly string[]): string => (names.length === 0 ? 'none' : names.join(', '));

/**
 * References are filled in and the shape is checked: what comes may come from a plugin of others.
 * @throws PaperRefused where the plugin says that it cannot be printed; PaperFailed
 */
export async function describePaper(
  plugin: string,
  name: string,
  offer: PaperOffer,
  ask: Ask,
  input: unknown,
  people: People,
): Promise<DescribedPaper> {
  try {
    const filled = await fillReferences(await offer.run(ask, input), people);
    const fits = paperShape.safeParse(filled);
    if (fits.success) return { paper: fits.data, studio: ask.settings.studio, day: ask.today };
    const { path, message } = fits.error.issues[0]!;
    throw new Error(`it is not described as it must be (${path.join('.')}: ${message})`);
  } catch (error) {
    throw error instanceof AskRefused ? error : new PaperFailed(plugin, name, error);
  }
}
