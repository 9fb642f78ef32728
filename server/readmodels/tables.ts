/** From a drizzle table made with `facts` or `cells` to the SQL that makes, fills and empties it. */
import { getTableColumns } from 'drizzle-orm';
import { getTableConfig, type SQLiteColumn, type SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Row } from '../contract/plugin.ts';

export type Value = string | number | null;

export interface Field {
  /** As a projection's row calls it. */
  readonly key: string;
  /** As SQL calls it. */
  readonly name: string;
  readonly type: 'text' | 'integer' | 'real';
  readonly notNull: boolean;
}

export interface TablePlan {
  readonly name: string;
  /** Columns that a row gives; `stream` of a table of facts is the host's. */
  readonly fields: readonly Field[];
  /** Of a table of cells: how many of the fields, at the end, are sums. */
  readonly sums?: number;
  readonly create: string;
  readonly indexes: readonly string[];
  /** The database itself refuses two rows alike, so old rows must go before new ones come. */
  readonly unique: boolean;
}

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

export function planTable(table: SQLiteTable): TablePlan {
  const { name, columns, indexes, primaryKeys } = getTableConfig(table);
  const sums = 'sums' in table && Array.isArray(table.sums) ? table.sums.length : undefined;
  const all = Object.entries(getTableColumns(table)).map(([key, column]) => field(name, key, column));
  if (sums === undefined && !all.some((it) => it.key === 'stream'))
    throw new Error(`table ${name} is made neither with facts nor with cells`);
  const keys = primaryKeys.map(
    (key) => `PRIMARY KEY (${key.columns.map((it) => quoted(it.name)).join(', ')})`,
  );
  const lines = [...columns.map(columnSql), ...keys].join(', ');
  return {
    name,
    fields: sums === undefined ? all.filter((it) => it.key !== 'stream') : all,
    sums,
    create: `CREATE TABLE ${quoted(name)} (${lines})${withoutRowid(columns, primaryKeys, sums)}`,
    indexes: indexes.map((it) => indexSql(name, it.config)),
    unique:
      primaryKeys.length > 0 ||
      columns.some((it) => it.primary || it.isUnique) ||
      indexes.some((it) => it.config.unique),
  };
}

/** Cells stand in the order of their key, so that a report walks them without going elsewhere for the sums. */
function withoutRowid(
  columns: readonly SQLiteColumn[],
  [key]: ReturnType<typeof getTableConfig>['primaryKeys'],
  sums: number | undefined,
): string {
  const keys = key?.columns.map((it) => it.name) ?? [];
  const whole = keys.length > 0 && columns.every((it) => it.notNull || !keys.includes(it.name));
  return sums !== undefined && whole ? ' WITHOUT ROWID' : '';
}

function field(table: string, key: string, column: SQLiteColumn): Field {
  const type = column.getSQLType().toLowerCase();
  if (type !== 'text' && type !== 'integer' && type !== 'real')
    throw new Error(`column ${table}.${column.name} is ${type}; a read model holds text, integer and real`);
  return { key, name: column.name, type, notNull: column.notNull };
}

function columnSql(column: SQLiteColumn): string {
  const primary = column.primary ? ' PRIMARY KEY' : '';
  const unique = column.isUnique ? ' UNIQUE' : '';
  return `${quoted(column.name)} ${column.getSQLType()}${primary}${unique}${column.notNull ? ' NOT NULL' : ''}`;
}

type IndexConfig = ReturnType<typeof getTableConfig>['indexes'][number]['config'];

function indexSql(table: string, config: IndexConfig): string {
  const columns = config.columns.map((it) => {
    if (!('name' in it))
      throw new Error(`index ${config.name} is on an expression; a read model's are on columns`);
    return quoted(it.name);
  });
  return `CREATE ${config.unique ? 'UNIQUE ' : ''}INDEX ${quoted(config.name)} ON ${quoted(table)} (${columns.join(', ')})`;
}

/** The row's values in the order of the fields. The driver ends the process on a boolean, so nothing passes unseen. */
export function valuesOf(plan: TablePlan, row: Row): Value[] {
  let given = 0;
  const values = plan.fields.map((it) => {
    const value = row[it.key];
    if (value !== undefined) given++;
    if (value === undefined || value === null) {
      if (it.notNull) throw new Error(`${plan.name}.${it.key} must have a value`);
      return null;
    }
    const fits = it.type === 'text' ? typeof value === 'string' : Number.isFinite(value);
    if (!fits)
      throw new Error(`${plan.name}.${it.key} is ${it.type}, not ${typeof value} (${String(value)})`);
    if (it.type === 'integer' && !Number.isSafeInteger(value))
      throw new Error(`${plan.name}.${it.key} is a whole number, not ${value}`);
    return value;
  });
  if (given !== Object.keys(row).length) refuseStrangers(plan, row);
  return values;
}

function refuseStrangers(plan: TablePlan, row: Row): void {
  const known = new Set(plan.fields.map((it) => it.key));
  const stranger = Object.keys(row).find((key) => row[key] !== undefined && !known.has(key));
  if (stranger !== undefined) throw new Error(`${plan.name} has no column ${stranger}`);
}

/** One row of parameters after another: as many rows in one statement as keep the list of parameters short. */
export function insertSql(plan: TablePlan, rows: number): string {
  const names = [...plan.fields.map((it) => it.name), ...(plan.sums === undefined ? ['stream'] : [])];
  const places = `(${names.map(() => '?').join(', ')})`;
  return `INSERT INTO ${quoted(plan.name)} (${names.map(quoted).join(', ')}) VALUES ${Array(rows).fill(places).join(', ')}`;
}

export const deleteStreamSql = (plan: TablePlan): string =>
  `DELETE FROM ${quoted(plan.name)} WHERE stream = ?`;

/** Rows of a stream that stand among the first ones of the table. */
export const deleteEarlySql = (plan: TablePlan): string => `${deleteStreamSql(plan)} AND rowid <= ?`;

/** A cell's key may be null, which `IS` finds and a conflict clause would not. */
export function cellSql(plan: TablePlan) {
  const keys = plan.fields.slice(0, plan.fields.length - plan.sums!);
  const sums = plan.fields.slice(plan.fields.length - plan.sums!);
  const table = quoted(plan.name);
  const where = keys.map((it) => `${quoted(it.name)} IS ?`).join(' AND ');
  const conflict = keys.map((it) => quoted(it.name)).join(', ');
  const added = sums
    .map((it) => `${quoted(it.name)} = ${quoted(it.name)} + excluded.${quoted(it.name)}`)
    .join(', ');
  const empty = sums.map((it) => `${quoted(it.name)} = 0`).join(' AND ');
  return {
    add: `${insertSql(plan, 1)} ON CONFLICT (${conflict}) DO UPDATE SET ${added}`,
    insert: insertSql(plan, 1),
    update: `UPDATE ${table} SET ${sums.map((it) => `${quoted(it.name)} = ${quoted(it.name)} + ?`).join(', ')} WHERE ${where}`,
    clear: `DELETE FROM ${table} WHERE ${where} AND ${empty}`,
    sweep: `DELETE FROM ${table} WHERE ${empty}`,
  };
}
