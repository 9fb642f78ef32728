/** A notebook file: its headings, then a record of cells for each row. */
import type { Mapping } from '../headings.ts';
import type { Source } from '../source.ts';
import { readTable, type TableCells, type TableFile } from '../table.ts';

export const COLUMNS = [
  'piece',
  'count',
  'made',
  'form',
  'clay',
  'owner',
  'bisque_schedule',
  'bisque_firing',
  'bisque_fired',
  'bisque_kiln',
  'glazes',
  'glaze_schedule',
  'glaze_firing',
  'glaze_fired',
  'kiln',
  'faults',
  'grade',
  'repair',
  'price',
  'second_price',
  'left',
  'note',
] as const;
export type Column = (typeof COLUMNS)[number];

export type Cells = TableCells<Column>;
export type NotebookFile = TableFile<Column>;

/**
 * `mapping` is asked for once the headings are known, so that a remembered one can be found by them.
 * Throws Unreadable where the file is no CSV file at all.
 */
export const readNotebook = (
  source: Source,
  mapping: (headings: readonly string[]) => Mapping | Promise<Mapping>,
): Promise<NotebookFile> => readTable({ columns: COLUMNS, needed: [['made', 'piece']] }, source, mapping);
