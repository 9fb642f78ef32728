/**
 * Tables of a read model. The host makes them from these declarations, writes
 * them, and throws them away; a plugin only says which rows a stream stands for.
 */
import {
  type AnySQLiteColumn,
  index,
  integer,
  primaryKey,
  type SQLiteColumnBuilderBase,
  sqliteTable,
  text,
} from 'drizzle-orm/sqlite-core';

type Columns = Record<string, SQLiteColumnBuilderBase>;

/** Rows that belong to one stream each: replaced together when that stream changes. */
export function facts<Name extends string, C extends Columns>(
  name: Name,
  columns: C,
  indexes: readonly (readonly (keyof C & string)[])[] = [],
) {
  return sqliteTable(name, { ...columns, stream: text('stream').notNull() }, (table) => {
    const at = table as unknown as Record<string, AnySQLiteColumn>;
    return [
      index(`${name}_stream`).on(at.stream!),
      ...indexes.map((fields) => {
        const [first, ...rest] = fields.map((field) => at[field]!);
        return index(`${name}_${fields.join('_')}`).on(first!, ...rest);
      }),
    ];
  });
}

/**
 * Sums over all streams by key (pieces by day and glaze). A stream says what it
 * adds; the host takes away what it added before. Cells that come to nothing go.
 */
export function cells<Name extends string, K extends Columns, Sum extends string>(
  name: Name,
  keys: K,
  sums: readonly Sum[],
) {
  const counted = Object.fromEntries(sums.map((sum) => [sum, integer(sum).notNull()])) as unknown as {
    [S in Sum]: ReturnType<ReturnType<typeof integer>['notNull']>;
  };
  return Object.assign(
    sqliteTable(name, { ...keys, ...counted }, (table) => {
      const at = table as unknown as Record<string, AnySQLiteColumn>;
      const [first, ...rest] = Object.keys(keys).map((key) => at[key]!);
      return [primaryKey({ columns: [first!, ...rest] })];
    }),
    { sums },
  );
}
