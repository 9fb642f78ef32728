/** An answer as CSV (RFC 4180: CRLF, quotes doubled), safe to open in a spreadsheet. */
import type { Answer } from '../contract/figures.ts';

/** Spreadsheets take what begins like this for a formula. */
const FORMULA = /^[=+\-@\t\r]/;
const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i;

export function csvCell(value: unknown): string {
  if (value === null || value === undefined) return '';
  const text = typeof value === 'object' ? JSON.stringify(value) : String(value);
  const safe = FORMULA.test(text) && !NUMBER.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Columns of the answer's first table, or every field that a row has, headed by the fields' names. */
export function toCsv(answer: Answer): string {
  const table = answer.figures.find((it) => it.figure === 'table');
  const kind = table?.only;
  const rows = kind === undefined ? answer.rows : answer.rows.filter((row) => row.kind === kind);
  const fields = table
    ? table.columns.map((it) => it.field)
    : [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const lines = [fields, ...rows.map((row) => fields.map((field) => row[field]))];
  return lines.map((cells) => `${cells.map(csvCell).join(',')}\r\n`).join('');
}
