/**
 * What a read model must hold, found the plain way: filter the whole log, fold every stream anew,
 * add up. And what a file does hold, to compare.
 */
import Database from 'libsql';
import type { Entry } from '../../server/contract/entry.ts';
import type { Plugin } from '../../server/contract/plugin.ts';
import { streamKey, streamPrefix } from '../../server/contract/streams.ts';
import { endOf } from '../../server/host/days.ts';
import type { Past } from '../../server/host/host.ts';
import { dayOf, effective, inOrder } from '../../server/host/order.ts';
import type { Registry } from '../../server/host/registry.ts';
import { planModel } from '../../server/readmodels/plan.ts';

/** Rows of each table, in one order. */
export type Dump = Record<string, string[]>;

export function filtered(entries: readonly Entry[], { asAt, knownAt }: Past, zone: string): Entry[] {
  return entries.filter(
    (it) =>
      (knownAt === undefined || Date.parse(it.recordedAt) < endOf(knownAt, zone)) &&
      (asAt === undefined || it.name === 'entry.struck' || dayOf(it.happenedAt) <= asAt),
  );
}

export function replayed(entries: readonly Entry[], plugin: Plugin, registry: Registry): Dump {
  const streams = new Map<string, Entry[]>();
  for (const entry of entries)
    for (const stream of new Set(entry.streams)) streams.set(stream, [...(streams.get(stream) ?? []), entry]);
  const dump: Dump = {};
  const sums = new Map<string, Map<string, { key: unknown[]; sums: number[] }>>();
  const plan = planModel(plugin);
  for (const table of plan.tables) dump[table.name] = [];
  for (const [stream, all] of streams) {
    const kind = registry.kind(streamPrefix(stream))?.it;
    const ordered = inOrder(effective(all).map(registry.bring), registry);
    if (!kind || ordered.length === 0) continue;
    const state = ordered.reduce(kind.evolve, kind.initial(streamKey(stream)));
    for (const projection of plan.projections.filter((it) => it.of === streamPrefix(stream)))
      for (const [name, rows] of Object.entries(projection.rows(state, streamKey(stream)))) {
        const table = projection.tables.get(name)!;
        for (const row of rows) {
          const values = table.fields.map((field) => row[field.key] ?? null);
          if (table.sums === undefined) dump[table.name]!.push(JSON.stringify([...values, stream]));
          else addUp(sums, table.name, values, table.sums);
        }
      }
  }
  for (const [name, cells] of sums)
    for (const cell of cells.values())
      if (cell.sums.some((sum) => sum !== 0)) dump[name]!.push(JSON.stringify([...cell.key, ...cell.sums]));
  for (const rows of Object.values(dump)) rows.sort();
  return dump;
}

function addUp(
  sums: Map<string, Map<string, { key: unknown[]; sums: number[] }>>,
  table: string,
  values: unknown[],
  count: number,
): void {
  const cells = sums.get(table) ?? new Map<string, { key: unknown[]; sums: number[] }>();
  sums.set(table, cells);
  const key = values.slice(0, -count);
  const cell = cells.get(JSON.stringify(key)) ?? { key, sums: Array(count).fill(0) as number[] };
  cells.set(JSON.stringify(key), cell);
  values.slice(-count).forEach((value, at) => {
    cell.sums[at]! += value as number;
  });
}

/** Everything that the plugin's tables hold in the file. */
export function dumped(path: string, plugin: Plugin): Dump {
  const db = new Database(path);
  try {
    return Object.fromEntries(
      planModel(plugin).tables.map((table) => {
        const columns = [
          ...table.fields.map((it) => it.name),
          ...(table.sums === undefined ? ['stream'] : []),
        ];
        const rows = db
          .prepare(`SELECT ${columns.map((it) => `"${it}"`).join(', ')} FROM "${table.name}"`)
          .raw()
          .all();
        return [table.name, rows.map((row) => JSON.stringify(row)).sort()];
      }),
    );
  } finally {
    db.close();
  }
}
