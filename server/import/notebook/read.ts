/** A notebook file: its headings, then a record of cells for each row. */
import type { Heading, Mapping } from '../headings.ts';
import { readHeadings } from '../headings.ts';
import type { Bad } from '../records.ts';
import { isBad, readRecords, shortened } from '../records.ts';
import type { Encoding, Source } from '../source.ts';
import { openText, Unreadable } from '../source.ts';

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

/** The cells of one row, trimmed; empty ones are left out. */
export interface Cells {
  readonly line: number;
  readonly cells: Readonly<Partial<Record<Column, string>>>;
}

export interface NotebookFile {
  readonly encoding: Encoding;
  readonly headings: readonly Heading<Column>[];
  /** Why no row can be read; `rows` is empty then. */
  readonly problems: readonly Bad[];
  readonly rows: AsyncIterable<Cells | Bad>;
}

/** Rows in one file; a file is held in memory, as what happened is put in order before it is recorded. */
export const MOST_ROWS = 250_000;

/**
 * `mapping` is asked for once the headings are known, so that a remembered one can be found by them.
 * Throws Unreadable where the file is no CSV file at all.
 */
export async function readNotebook(
  source: Source,
  mapping: (headings: readonly string[]) => Mapping | Promise<Mapping>,
): Promise<NotebookFile> {
  const text = await openText(source);
  const records = readRecords(text.chunks());
  const first = await records.next();
  if (first.done) throw new Unreadable('This file has no headings.');
  if (isBad(first.value))
    return { encoding: text.encoding, headings: [], problems: [first.value], rows: none() };
  const { line, fields } = first.value;
  const { headings, problems } = readHeadings(fields, line, COLUMNS, await mapping(fields));
  const all = [...problems, ...withoutKey(headings, line)];
  return {
    encoding: text.encoding,
    headings,
    problems: all,
    rows: all.length > 0 ? none() : rowsOf(records, headings),
  };
}

async function* none(): AsyncGenerator<never> {}

function withoutKey(headings: readonly Heading<Column>[], line: number): Bad[] {
  if (headings.some(({ column }) => column === 'made' || column === 'piece')) return [];
  const found = shortened(headings.map(({ heading }) => heading).join(', '));
  return [{ line, column: '', found, expected: 'a heading ‘made’ or ‘piece’, or another one mapped to it' }];
}

async function* rowsOf(
  records: AsyncIterable<Parameters<typeof isBad>[0]>,
  headings: readonly Heading<Column>[],
): AsyncGenerator<Cells | Bad> {
  let rows = 0;
  for await (const record of records) {
    if (++rows > MOST_ROWS) {
      throw new Unreadable(
        `This file has more than ${MOST_ROWS.toLocaleString('en-GB')} rows. Split it, by year for instance, with the headings at the top of each part.`,
      );
    }
    yield isBad(record)
      ? record
      : (ragged(record.line, record.fields, headings) ?? cellsOf(record, headings));
  }
}

/** RFC 4180, 2.4: each line should have the same number of fields. Empty ones at the end are let pass. */
function ragged(
  line: number,
  fields: readonly string[],
  headings: readonly Heading<Column>[],
): Bad | undefined {
  const needed = headings.length;
  const filled = fields.length - [...fields].reverse().findIndex((field) => field.trim() !== '');
  if (fields.length >= needed && filled <= needed) return undefined;
  const count = fields.length < needed ? fields.length : filled;
  return {
    line,
    column: '',
    found: `${count} ${count === 1 ? 'field' : 'fields'}: ${shortened(fields.join(' | '))}`,
    expected: `${needed} fields, as there are ${needed} headings`,
  };
}

function cellsOf(
  record: { line: number; fields: readonly string[] },
  headings: readonly Heading<Column>[],
): Cells {
  const cells: Partial<Record<Column, string>> = {};
  headings.forEach(({ column }, at) => {
    const cell = record.fields[at]!.trim();
    if (column !== undefined && cell !== '') cells[column] = cell;
  });
  return { line: record.line, cells };
}
