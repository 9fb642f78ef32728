/** The checks that a plugin must pass before anything runs; a bad one is refused by its name. */
import { getTableName } from 'drizzle-orm';
import { CONTRACT, type Plugin } from '../contract/plugin.ts';
import { hostPlugin } from './strike-events.ts';

export class BadPlugin extends Error {
  override readonly name = 'BadPlugin';
  constructor(
    readonly plugin: string,
    readonly why: string,
  ) {
    super(`Plugin “${plugin}” ${why}.`);
  }
}

const ID = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;

/** @throws BadPlugin */
export function checkPlugins(plugins: readonly Plugin[]): void {
  const before: Plugin[] = [];
  for (const plugin of plugins) {
    checkItself(plugin);
    checkAgainst(plugin, [hostPlugin, ...before]);
    checkNeeds(plugin, before, plugins);
    checkProjections(plugin, before);
    before.push(plugin);
  }
}

function checkItself(plugin: Plugin): void {
  const bad = (why: string) => new BadPlugin(plugin.id, why);
  if (!ID.test(plugin.id)) throw bad('needs an id of lower-case words with hyphens');
  if (plugin.contract !== CONTRACT)
    throw bad(
      `was made for version ${plugin.contract} of the plugin contract; this Wareboard has version ${CONTRACT}`,
    );
  for (const prefix of plugin.prefixes)
    if (!ID.test(prefix))
      throw bad(`declares the prefix “${prefix}”, which is not in lower-case words with hyphens`);
  const again = firstRepeated(plugin.prefixes);
  if (again) throw bad(`declares the prefix “${again}” twice`);
  for (const name of [...names(plugin.events), ...names(plugin.commands)]) {
    const [prefix, what, ...more] = name.split('.');
    if (!what || more.length > 0 || !ID.test(what))
      throw bad(`names “${name}”, which is not of the form prefix.what`);
    if (!plugin.prefixes.includes(prefix!))
      throw bad(`names “${name}” without declaring the prefix “${prefix}”`);
  }
  for (const name of [...names(plugin.reports), ...names(plugin.papers), ...names(plugin.handouts)])
    if (!ID.test(name))
      throw bad(`calls a report, paper or handout “${name}”, which is not in lower-case words with hyphens`);
  for (const [name, { files }] of Object.entries({ ...plugin.commands, ...plugin.events }))
    if (files !== undefined && !plugin.wants?.includes('files'))
      throw bad(`names files in ${name}, but does not say that it wants “files”`);
  for (const [name, shape] of Object.entries(plugin.events ?? {})) {
    if (typeof shape.shape?.safeParse !== 'function') throw bad(`gives no shape for ${name}`);
    if (typeof shape.rank !== 'function' && !Number.isFinite(shape.rank))
      throw bad(`gives no rank within the day for ${name}`);
    const { upcasts = [] } = shape;
    // Array.from, so that a hole in the list counts as missing.
    const hole = Array.from(upcasts, (upcast) => typeof upcast === 'function').indexOf(false);
    if (hole >= 0) throw bad(`has no upcast of ${name} from version ${hole + 1} to ${hole + 2}`);
  }
}

/** Ids, prefixes and stream kinds belong to one plugin each. */
function checkAgainst(plugin: Plugin, others: readonly Plugin[]): void {
  const bad = (why: string) => new BadPlugin(plugin.id, why);
  const kinds = (plugin.streams ?? []).map((kind) => kind.prefix);
  const again = firstRepeated(kinds);
  if (again) throw bad(`declares two kinds of stream called “${again}”`);
  for (const kind of kinds)
    if (!ID.test(kind))
      throw bad(`calls a kind of stream “${kind}”, which is not in lower-case words with hyphens`);
  for (const other of others) {
    if (other.id === plugin.id) throw bad('is there twice');
    const prefix = plugin.prefixes.find((it) => other.prefixes.includes(it));
    if (prefix) throw bad(`declares the prefix “${prefix}”, which belongs to “${other.id}”`);
    const kind = kinds.find((it) => other.streams?.some((theirs) => theirs.prefix === it));
    if (kind) throw bad(`declares the stream kind “${kind}”, which belongs to “${other.id}”`);
  }
}

function checkNeeds(plugin: Plugin, before: readonly Plugin[], all: readonly Plugin[]): void {
  for (const need of plugin.needs) {
    if (before.some((other) => other.id === need)) continue;
    const later = all.some((other) => other.id === need && other !== plugin);
    throw new BadPlugin(
      plugin.id,
      later
        ? `needs “${need}”, which must be listed before it (and cannot need it in turn)`
        : `needs “${need}”, which is not there`,
    );
  }
}

function checkProjections(plugin: Plugin, before: readonly Plugin[]): void {
  const readable = [plugin, ...before.filter((other) => plugin.needs.includes(other.id))];
  const tables = new Set<string>();
  for (const [name, projection] of Object.entries(plugin.projections ?? {})) {
    const bad = (why: string) => new BadPlugin(plugin.id, `has a projection “${name}” ${why}`);
    if (!readable.some((other) => other.streams?.some((kind) => kind.prefix === projection.of)))
      throw bad(`of “${projection.of}”, a kind of stream that neither it nor a plugin it needs declares`);
    if (!Number.isInteger(projection.version) || projection.version < 1)
      throw bad('without a version from 1');
    for (const [key, table] of Object.entries(projection.tables)) {
      const sqlName = getTableName(table);
      if (key !== sqlName) throw bad(`with the table “${sqlName}” under the name “${key}”`);
      if (tables.has(sqlName)) throw bad(`with the table “${sqlName}”, which another of its projections has`);
      tables.add(sqlName);
    }
  }
}

const names = (declared: object | undefined): string[] => Object.keys(declared ?? {});

const firstRepeated = (list: readonly string[]): string | undefined =>
  list.find((item, index) => list.indexOf(item) !== index);

/** Freezes lists and plain objects all the way down; schemas and tables keep caches of their own and stay as they are. */
export function deepFreeze<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  const plain = Array.isArray(value) || Object.getPrototypeOf(value) === Object.prototype;
  if (!plain) return value;
  Object.freeze(value);
  for (const inner of Object.values(value)) deepFreeze(inner);
  return value;
}
