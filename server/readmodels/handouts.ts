/** What may be fetched from outside, and which papers can be given: asked of the plugins that say so. */
import type { HandoutStanding, PaperRef } from '../contract/handout.ts';
import type { Ask } from '../contract/plugin.ts';
import type { Registry } from '../host/registry.ts';

/** Lets one ask of a plugin's read model as it is now. */
export type Asking = <T>(
  plugin: string,
  work: (ask: Ask) => Promise<T>,
  failure: (failed: Error) => Error,
) => Promise<T>;

export interface HandoutNow {
  /** Undefined where there is no such one. */
  readonly standing?: HandoutStanding;
  /** In the studio's zone. */
  readonly today: string;
}

/** A paper that can be named by any plugin. */
export interface OfferedPaper extends PaperRef {
  readonly title: string;
  /** Address of its page. */
  readonly to: string;
  /** Sheets that it can be drawn on; none where it has only one size. */
  readonly sizes: readonly string[];
}

/** The plugin could not say. */
export class HandoutFailed extends Error {
  override readonly name = 'HandoutFailed';
  constructor(plugin: string, cause: Error) {
    super(`Plugin “${plugin}” could not say what it hands out: ${cause.message}`, { cause });
  }
}

/** @throws HandoutFailed */
export async function askHandout(
  registry: Registry,
  asking: Asking,
  plugin: string,
  name: string,
  key: string,
): Promise<HandoutNow> {
  const handouts = registry.plugin(plugin)?.handouts ?? {};
  const handout = Object.hasOwn(handouts, name) ? handouts[name] : undefined;
  if (handout === undefined) return { today: '' };
  const failure = (cause: Error) => new HandoutFailed(plugin, cause);
  return asking(
    plugin,
    async (ask) => {
      const standing = await handout.look(ask, key).catch((cause: Error) => {
        throw failure(cause);
      });
      return standing === undefined ? { today: ask.today } : { standing, today: ask.today };
    },
    failure,
  );
}

/** @throws HandoutFailed */
export async function askGivenPapers(registry: Registry, asking: Asking): Promise<OfferedPaper[]> {
  const offered: OfferedPaper[] = [];
  for (const { id: plugin, papers = {} } of registry.plugins) {
    for (const [paper, { given }] of Object.entries(papers)) {
      if (!given) continue;
      const failure = (cause: Error) => new HandoutFailed(plugin, cause);
      const choices = await asking(plugin, given.choices, failure);
      const sizes = given.size?.names ?? [];
      offered.push(...choices.map((choice) => ({ plugin, paper, sizes, ...choice })));
    }
  }
  return offered;
}
