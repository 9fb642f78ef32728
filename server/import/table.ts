/** A file of rows: its headings, then a record of cells for each row. */
import type { Heading, Mapping } from './headings.ts';
import { readHeadings } from './headings.ts';
import type { Bad } from './records.ts';
import { isBad, readRecords, shortened } from './records.ts';
import type { Encoding, Source } from './source.ts';
import { openText, Unreadable } from './source.ts';

/** What a file of this kind has. */
export interface TableShape<Column extends string> {
  readonly columns: readonly Column[];
  /** Of each list one heading must be there. */
  readonly needed: readonly (readonly Column[])[];
}

/** The cells of one row, trimmed; empty ones are left out. */
export interface TableCells<Column extends string> {
  readonly line: number;
  readonly cells: Readonly<Partial<Record<Column, string>>>;
}

export interface TableFile<Column extends string> {
  readonly encoding: Encoding;
  readonly headings: readonly Heading<Column>[];
  /** Why no row can be read; `rows` is empty then. */
  readonly problems: readonly Bad[];
  readonly rows: AsyncIterable<TableCells<Column> | Bad>;
}

/** Rows in one file; a file is held in memory, as what happened is put in order before it is recorded. */
export const MOST_ROWS = 250_000;

/**
 * `mapping` is asked for once the headings are known, so that a remembered one can be found by them.
 * Throws Unreadable where the file is no CSV file at all.
 */
export async function readTable<Column extends string>(
  shape: TableShape<Column>,
  source: Source,
  mapping: (headings: readonly string[]) => Mapping | Promise<Mapping>,
): Promise<TableFile<Column>> {
  const text = await openText(source);
  const records = readRecords(text.chunks());
  const first = await records.next();
  if (first.done) throw new Unreadable('This file has no headings.');
  if (isBad(first.value))
    return { encoding: text.encoding, headings: [], problems: [first.value], rows: none() };
  const { line, fields } = first.value;
  const { headings, problems } = readHeadings(fields, line, shape.columns, await mapping(fields));
  const all = [...problems, ...withoutKey(shape.needed, headings, line)];
  return {
    encoding: text.encoding,
    headings,
    problems: all,
    rows: all.length > 0 ? none() : rowsOf(records, headings),
  };
}

async function* none(): AsyncGenerator<never> {}

function withoutKey<Column extends string>(
  needed: TableShape<Column>['needed'],
  headings: readonly Heading<Column>[],
  line: number,
): Bad[] {
  const found = shortened(headings.map(({ heading }) => heading).join(', '));
  return needed
    .filter((some) => !headings.some(({ column }) => column !== undefined && some.includes(column)))
    .map((some) => ({
      line,
      column: '',
      found,
      expected: `a heading ${some.map((one) => `‘${one}’`).join(' or ')}, or another one mapped to it`,
    }));
}

async function* rowsOf<Column extends string>(
  records: AsyncIterable<Parameters<typeof isBad>[0]>,
  headings: readonly Heading<Column>[],
): AsyncGenerator<TableCells<Column> | Bad> {
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
  headings: readonly Heading<string>[],
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

function cellsOf<Column extends string>(
  record: { line: number; fields: readonly string[] },
  headings: readonly Heading<Column>[],
): TableCells<Column> {
  const cells: Partial<Record<Column, string>> = {};
  headings.forEach(({ column }, at) => {
    const cell = record.fields[at]!.trim();
    if (column !== undefined && cell !== '') cells[column] = cell;
  });
  return { line: record.line, cells };
}
