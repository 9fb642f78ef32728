/** Projections of the newest names of materials and firings, for plugins that show them, and how to look them up. */
import { text } from 'drizzle-orm/sqlite-core';
import { type Ask, projection } from '../plugin.ts';
import type { Firing, Material } from '../studio/state.ts';
import { facts } from '../tables.ts';
import { marks } from './sql.ts';

const nameTable = <Name extends string>(table: Name) =>
  facts(table, { id: text('id').notNull(), name: text('name').notNull() }, [['id']]);

function naming<Name extends string>(table: Name, of: string) {
  return projection<Material>({
    version: 1,
    of,
    tables: { [table]: nameTable(table) },
    rows: ({ id, facts: newest }) => ({ [table]: newest ? [{ id, name: newest.name }] : [] }),
  });
}

export const glazeNaming = naming('glaze_names', 'glaze');
export const clayNaming = naming('clay_names', 'clay');
export const scheduleNaming = naming('schedule_names', 'schedule');
export const kilnNaming = naming('kiln_names', 'kiln');

export const firingNaming = projection<Firing>({
  version: 1,
  of: 'firing',
  tables: { firing_names: nameTable('firing_names') },
  rows: ({ firing, label, state }) => ({
    firing_names: state === 'none' ? [] : [{ id: firing, name: label ?? firing }],
  }),
});

export type MaterialTable = 'glaze_names' | 'clay_names' | 'schedule_names' | 'kiln_names';
export type NameTable = MaterialTable | 'firing_names';
export type NameOf = (id: string) => string;

/** All names of a table; an id stands for itself where none is known. */
export async function namesIn(ask: Ask, table: MaterialTable): Promise<NameOf> {
  const found = await ask.query<{ id: string; name: string }>(`SELECT id, name FROM ${table}`);
  const names = new Map(found.map(({ id, name }) => [id, name]));
  return (id) => names.get(id) ?? id;
}

/** Names of some firings: there may be very many. */
export async function firingNames(ask: Ask, ids: readonly string[]): Promise<NameOf> {
  const names = new Map<string, string>();
  for (let at = 0; at < ids.length; at += 500) {
    const some = ids.slice(at, at + 500);
    const found = await ask.query<{ id: string; name: string }>(
      `SELECT id, name FROM firing_names WHERE id IN (${marks(some.length)})`,
      some,
    );
    for (const { id, name } of found) names.set(id, name);
  }
  return (id) => names.get(id) ?? id;
}
