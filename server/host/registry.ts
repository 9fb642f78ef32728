/** What the plugins declare, looked up by name. Built once at boot by `buildRegistry`, then frozen. */
import type { Entry } from '../contract/entry.ts';
import type { Command, EventShape, Plugin } from '../contract/plugin.ts';
import type { StreamKind } from '../contract/streams.ts';
import { checkPlugins, deepFreeze } from './check-plugins.ts';
import { hostPlugin } from './strike-events.ts';

export interface Known<Thing> {
  /** Id of the plugin that declares it. */
  readonly plugin: string;
  readonly name: string;
  readonly it: Thing;
}

export interface KnownEvent extends Known<EventShape> {
  /** Of the present shape, from 1. */
  readonly version: number;
}

export interface Registry {
  /** In the order they were listed; the host itself is not among them. */
  readonly plugins: readonly Plugin[];
  plugin(id: string): Plugin | undefined;
  event(name: string): KnownEvent | undefined;
  command(name: string): Known<Command> | undefined;
  /** Names of all commands, the host's own included. */
  commands(): readonly string[];
  kind(prefix: string): Known<StreamKind> | undefined;
  /** Whether no plugin that is here knows events of this name: their plugin was taken out. */
  unknown(name: string): boolean;
  /**
   * The entry with its data brought up to the present shape; an unknown one as it is.
   * @throws NewerEntry
   */
  bring(entry: Entry): Entry;
  /** Where the entry stands within a day; undefined for an unknown one. */
  rank(entry: Entry): number | undefined;
}

/** The entry was written by a newer release of its plugin than the one that is here. */
export class NewerEntry extends Error {
  override readonly name = 'NewerEntry';
  constructor(entry: Entry, known: KnownEvent) {
    super(
      `Entry ${entry.seq} (${entry.name}) is of version ${entry.version}, but plugin “${known.plugin}” knows it only up to version ${known.version}. Use the newer release that wrote it.`,
    );
  }
}

/** @throws BadPlugin, naming the plugin and what is wrong with it */
export function buildRegistry(plugins: readonly Plugin[]): Registry {
  checkPlugins(plugins);
  const all = [hostPlugin, ...plugins];
  const events = new Map<string, KnownEvent>();
  const commands = new Map<string, Known<Command>>();
  const kinds = new Map<string, Known<StreamKind>>();
  for (const { id: plugin, ...declared } of all) {
    for (const [name, it] of Object.entries(declared.events ?? {}))
      events.set(name, { plugin, name, it, version: (it.upcasts?.length ?? 0) + 1 });
    for (const [name, it] of Object.entries(declared.commands ?? {}))
      commands.set(name, { plugin, name, it });
    for (const it of declared.streams ?? []) kinds.set(it.prefix, { plugin, name: it.prefix, it });
  }
  const bring = (entry: Entry) => broughtUp(entry, events.get(entry.name));
  return Object.freeze<Registry>({
    plugins: deepFreeze([...plugins]),
    plugin: (id) => plugins.find((plugin) => plugin.id === id),
    event: (name) => events.get(name),
    command: (name) => commands.get(name),
    commands: () => [...commands.keys()],
    kind: (prefix) => kinds.get(prefix),
    unknown: (name) => !events.has(name),
    bring,
    rank: (entry) => {
      const rank = events.get(entry.name)?.it.rank;
      return typeof rank === 'function' ? rank(bring(entry).data) : rank;
    },
  });
}

function broughtUp(entry: Entry, known: KnownEvent | undefined): Entry {
  if (known === undefined || entry.version === known.version) return entry;
  if (entry.version > known.version) throw new NewerEntry(entry, known);
  const upcasts = known.it.upcasts!.slice(entry.version - 1);
  const data = upcasts.reduce((old, upcast) => upcast(old), entry.data);
  const fits = known.it.shape.safeParse(data);
  if (fits.success) return { ...entry, version: known.version, data: fits.data };
  const { path, message } = fits.error.issues[0]!;
  throw new Error(
    `Plugin “${known.plugin}”: the upcasts of ${entry.name} do not bring entry ${entry.seq} from version ${entry.version} to its present shape (${path.join('.')}: ${message}).`,
  );
}
