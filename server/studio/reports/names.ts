/** Names of materials for the rows of a report. */
import type { Ask } from '../../contract/plugin.ts';
import type { Names } from '../story.ts';

export interface NameTable {
  readonly clay: ReadonlyMap<string, string>;
  readonly glaze: ReadonlyMap<string, string>;
  readonly schedule: ReadonlyMap<string, string>;
  readonly kiln: ReadonlyMap<string, string>;
}

export async function namesOf(ask: Ask): Promise<NameTable> {
  const rows = await ask.query<{ kind: string; id: string; name: string }>(
    `SELECT 'clay' AS kind, id, name FROM clays UNION ALL SELECT 'glaze', id, name FROM glazes
     UNION ALL SELECT 'schedule', id, name FROM schedules UNION ALL SELECT 'kiln', id, name FROM kilns`,
  );
  const of = (kind: string) => new Map(rows.filter((r) => r.kind === kind).map((r) => [r.id, r.name]));
  return { clay: of('clay'), glaze: of('glaze'), schedule: of('schedule'), kiln: of('kiln') };
}

/** Any material's name; a handle is its own name where none is known. */
export const anyName =
  (table: NameTable): Names =>
  (id) =>
    id === undefined
      ? ''
      : (table.glaze.get(id) ??
        table.clay.get(id) ??
        table.schedule.get(id) ??
        table.kiln.get(id) ??
        id.replaceAll('-', ' '));
