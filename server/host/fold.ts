/** Folding a stream's entries into its state, as it is or as it was. Pure. */
import type { Entry } from '../contract/entry.ts';
import { type StreamKind, streamKey } from '../contract/streams.ts';
import { endOf } from './days.ts';
import type { Past } from './host.ts';
import { dayOf, effective, inOrder } from './order.ts';
import type { Registry } from './registry.ts';

/** The entries that had been recorded by the end of that day, strikes too. */
function knownBy(entries: readonly Entry[], day: string, zone: string): Entry[] {
  const end = endOf(day, zone);
  return entries.filter((entry) => Date.parse(entry.recordedAt) < end);
}

/**
 * The entries of a stream that count, in the order they happened, in their present shapes.
 * As-at leaves out what happened later, whenever it was struck; known-at goes by what had been
 * recorded, so that a later strike does not count yet.
 */
export function counted(
  entries: readonly Entry[],
  registry: Registry,
  past: Past = {},
  zone = 'UTC',
): Entry[] {
  const { asAt, knownAt } = past;
  const known = knownAt === undefined ? entries : knownBy(entries, knownAt, zone);
  const standing = effective(known);
  const happened =
    asAt === undefined ? standing : standing.filter((entry) => dayOf(entry.happenedAt) <= asAt);
  return inOrder(happened.map(registry.bring), registry);
}

/** The state after entries that are already in order. */
export function fold<State>(kind: StreamKind<State>, key: string, ordered: readonly Entry[]): State {
  let state = kind.initial(key);
  for (const entry of ordered) state = kind.evolve(state, entry);
  return state;
}

/** The state of a stream from its entries in log order; undefined when no plugin knows its kind. */
export function stateOf(
  stream: string,
  entries: readonly Entry[],
  registry: Registry,
  past?: Past,
  zone?: string,
): unknown {
  const kind = registry.kind(stream.slice(0, stream.indexOf(':')))?.it;
  return kind && fold(kind, streamKey(stream), counted(entries, registry, past, zone));
}
