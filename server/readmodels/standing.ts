/** How each read model stands, and which recorded events nobody reads any more. */
import type { Registry } from '../host/registry.ts';
import type { ReadModel } from './model.ts';

export interface Standing {
  readonly plugin: string;
  /** Seq of the last entry its read model holds. */
  readonly checkpoint: number;
  /** Why it is not up with the log, in a sentence. */
  readonly failed?: string;
}

/**
 * One line for each plugin, then one for each prefix of events whose plugin is not here any more:
 * they stay in the log, and nothing counts them until the plugin is back.
 */
export function standingOf(models: readonly ReadModel[], registry: Registry): Standing[] {
  const present = models.map((it) => ({
    plugin: it.plan.plugin,
    checkpoint: it.seq,
    ...(it.failed ? { failed: it.failed.message } : {}),
  }));
  return [...present, ...absent(models, registry)];
}

function absent(models: readonly ReadModel[], registry: Registry): Standing[] {
  const furthest = models.reduce<ReadModel | undefined>((a, b) => (a && a.seq >= b.seq ? a : b), undefined);
  const unknown = furthest?.events().filter((it) => registry.unknown(it.name)) ?? [];
  const prefixes = [...new Set(unknown.map((it) => prefixOf(it.name)))].sort();
  return prefixes.map((prefix) => {
    const mine = unknown.filter((it) => prefixOf(it.name) === prefix);
    const names = mine.map((it) => `${it.name} (${it.entries})`).join(', ');
    return {
      plugin: prefix,
      checkpoint: Math.max(...mine.map((it) => it.last)),
      failed: `No plugin here knows the events ${names}. They stay in the log and count nowhere until their plugin is back.`,
    };
  });
}

const prefixOf = (event: string): string => event.slice(0, event.indexOf('.'));
