/** What a plugin's read model consists of, and the signature by which a file made for another one is known. */
import { createHash } from 'node:crypto';
import type { Plugin, Projection } from '../contract/plugin.ts';
import { planTable, type TablePlan } from './tables.ts';

/** Raised when the host's own tables in a read model change. */
const LAYOUT = 1;

export interface ProjectionPlan {
  readonly name: string;
  readonly of: string;
  readonly rows: Projection['rows'];
  /** By the key in the projection's `tables`, and by the table's own name. */
  readonly tables: ReadonlyMap<string, TablePlan>;
  /** Each table once. */
  readonly list: readonly TablePlan[];
}

export interface ModelPlan {
  readonly plugin: string;
  readonly signature: string;
  readonly projections: readonly ProjectionPlan[];
  readonly tables: readonly TablePlan[];
}

export function planModel(plugin: Plugin): ModelPlan {
  const tables = new Map<string, TablePlan>();
  const owners = new Set<string>();
  const projections = Object.entries(plugin.projections ?? {}).map(([name, made]) => {
    const list = Object.values(made.tables).map((table) => {
      const plan = planTable(table);
      const known = tables.get(plan.name);
      const owner = `${made.of} ${plan.name}`;
      if ((known && known.create !== plan.create) || owners.has(owner) || plan.name.startsWith('wareboard_'))
        throw new Error(`plugin ${plugin.id}: projection ${name} cannot keep a table named ${plan.name}: the name is taken`);
      owners.add(owner);
      tables.set(plan.name, known ?? plan);
      return known ?? plan;
    });
    const keys = Object.keys(made.tables);
    const byName = new Map([...list.map((it) => [it.name, it] as const), ...list.map((it, i) => [keys[i]!, it] as const)]);
    return { name, of: made.of, rows: made.rows, tables: byName, list };
  });
  const plans = [...tables.values()];
  return { plugin: plugin.id, signature: signature(plugin, plans), projections, tables: plans };
}

function signature(plugin: Plugin, tables: readonly TablePlan[]): string {
  const versions = Object.entries(plugin.projections ?? {}).map(([name, it]) => [name, it.of, it.version]);
  const made = tables.map((it) => [it.create, ...it.indexes]);
  return createHash('sha256').update(JSON.stringify([LAYOUT, plugin.contract, plugin.id, versions, made])).digest('hex');
}
