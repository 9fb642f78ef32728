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
  /** By name, which is also their key in the projection's `tables`. */
  readonly tables: ReadonlyMap<string, TablePlan>;
}

export interface ModelPlan {
  readonly plugin: string;
  readonly signature: string;
  readonly projections: readonly ProjectionPlan[];
  readonly tables: readonly TablePlan[];
}

export function planModel(plugin: Plugin): ModelPlan {
  const projections = Object.entries(plugin.projections ?? {}).map(([name, { of, rows, tables }]) => {
    const plans = Object.values(tables).map(planTable);
    return { name, of, rows, tables: new Map(plans.map((it) => [it.name, it])) };
  });
  const tables = projections.flatMap((it) => [...it.tables.values()]);
  return { plugin: plugin.id, signature: signature(plugin, tables), projections, tables };
}

function signature(plugin: Plugin, tables: readonly TablePlan[]): string {
  const versions = Object.entries(plugin.projections ?? {}).map(([name, it]) => [name, it.of, it.version]);
  const made = tables.map((it) => [it.create, ...it.indexes]);
  return createHash('sha256')
    .update(JSON.stringify([LAYOUT, plugin.contract, plugin.id, versions, made]))
    .digest('hex');
}
