/**
 * What other devices recorded between the moment the sender last looked and the moment its order
 * arrived: whether it says the same, or cannot be true together with what is asked for. Pure.
 */
import type { Entry } from '../contract/entry.ts';
import type { Command } from '../contract/plugin.ts';
import { refuse } from '../contract/streams.ts';
import { named } from './decide.ts';
import type { Histories } from './history.ts';
import type { Order, Refused } from './host.ts';
import { byCommand, effective } from './order.ts';
import type { Registry } from './registry.ts';

/** As many as can be looked through by eye. */
const MOST_SHOWN = 50;

/** The entries of other devices in these streams since the sender looked, struck ones left out; none where it said not when. */
export function meanwhile(
  order: Order,
  streams: readonly string[],
  histories: Histories,
  registry: Registry,
): readonly Entry[] {
  const { seen, device, id } = order;
  if (seen === undefined) return [];
  const found = new Map<number, Entry>();
  for (const stream of streams)
    for (const entry of effective(histories(stream)?.entries ?? []))
      if (entry.seq > seen && entry.device !== device && entry.command !== id) found.set(entry.seq, entry);
  return [...found.values()].sort((a, b) => a.seq - b.seq).map(registry.bring);
}

const unitsOf = (others: readonly Entry[]): (readonly Entry[])[] => [...byCommand(others).values()];

/** Seqs of those that say the same. */
export function alike(command: Command, input: unknown, others: readonly Entry[]): readonly number[] {
  const same = unitsOf(others).filter((unit) => command.beside?.(input, unit) === 'alike');
  return same.flat().map((entry) => entry.seq);
}

/** The refusal, with the other side, where both cannot be true. */
export function againstIt(command: Command, input: unknown, others: readonly Entry[]): Refused | undefined {
  const against = unitsOf(others).filter((unit) => command.beside?.(input, unit) === 'against');
  if (against.length === 0) return undefined;
  const sentence = `In the meantime another device recorded something else: ${named(against[0]!.at(-1)!)}. Both cannot be so; choose which one is.`;
  return { ...refuse('said-otherwise', sentence), meanwhile: shown(against.flat()) };
}

/** The newest, where there are very many. */
export const shown = (others: readonly Entry[]): readonly Entry[] => others.slice(-MOST_SHOWN);
