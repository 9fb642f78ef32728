/** An answer as plain text: its sentence, its tables, its notes. */
import { moneyInWords } from '../contract/amounts.ts';
import type { Answer, Column } from '../contract/figures.ts';
import { fieldsOf } from '../http/csv.ts';

type Row = Answer['rows'][number];

export function plainAnswer(answer: Answer): string {
  const tables = answer.figures.filter(({ figure }) => figure === 'table');
  const parts = tables.flatMap((figure) => {
    if (figure.figure !== 'table') return [];
    const rows = answer.rows.filter((row) => figure.only === undefined || row.kind === figure.only);
    const title = tables.length > 1 ? [figure.title] : [];
    return rows.length === 0 ? [] : [[...title, plainTable(figure.columns, rows)].join('\n')];
  });
  if (tables.length === 0 && answer.rows.length > 0)
    parts.push(plainTable(columnsOf(answer.rows), answer.rows));
  return `${[answer.sentence, ...parts, ...answer.notes].filter((part) => part !== '').join('\n\n')}\n`;
}

const columnsOf = (rows: Answer['rows']): Column[] =>
  fieldsOf(rows).map((field) => ({
    field,
    label: field,
    kind: rows.every((row) => typeof row[field] === 'number') ? 'number' : 'text',
  }));

const RIGHT = new Set<Column['kind']>(['count', 'number', 'rate', 'money']);

export function plainTable(columns: readonly Column[], rows: Answer['rows']): string {
  const cells = [
    columns.map(({ label }) => label),
    ...rows.map((row) => columns.map((column) => cell(row, column))),
  ];
  const widths = columns.map((_, at) => Math.max(...cells.map((line) => [...line[at]!].length)));
  return cells
    .map((line) =>
      line
        .map((text, at) => {
          const blank = ' '.repeat(widths[at]! - [...text].length);
          return RIGHT.has(columns[at]!.kind) ? blank + text : text + blank;
        })
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

function cell(row: Row, { field, kind }: Column): string {
  const value = row[field];
  if (value === null || value === undefined) return '';
  if (kind === 'rate' && typeof value === 'number') return `${(value * 100).toFixed(1)} %`;
  if (kind === 'money' && typeof value === 'number' && typeof row.currency === 'string')
    return moneyInWords({ amount: value, currency: row.currency });
  if (Array.isArray(value)) return value.map(oneLine).join(', ');
  return oneLine(value);
}

/** Control characters could move about on the terminal, so none is written. */
function oneLine(value: unknown): string {
  const text = typeof value === 'object' ? JSON.stringify(value) : String(value);
  return text.replace(/\p{Cc}+/gu, ' ');
}
