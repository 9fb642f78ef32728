/**
 * CSV that goes out (RFC 4180, UTF-8). A text that a spreadsheet would take for a
 * formula is given an apostrophe in front, so that opening the file runs nothing
 * (OWASP, "CSV Injection"). Figures are left as they are.
 */
import type { Answer } from '../contract/figures.ts';

/** OWASP names = + - @, tab and carriage return; line feed belongs with the latter. */
const FORMULA = /^[=+\-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]/;
const FIGURE = /^[+-]?\d+(\.\d+)?$/;
const TO_BE_QUOTED = /[",\r\n]/;

export function csvCell(value: unknown): string {
  const text = neutral(value);
  return TO_BE_QUOTED.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function neutral(value: unknown): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number' || typeof value === 'bigint' || typeof value === 'boolean')
    return String(value);
  const text = typeof value === 'string' ? value : textOf(value);
  return FORMULA.test(text) && !FIGURE.test(text) ? `'${text}` : text;
}

/** A list of plain values is written as such; a spreadsheet does nothing with JSON. */
function textOf(value: unknown): string {
  const plain = Array.isArray(value) && value.every((each) => typeof each !== 'object');
  return plain ? value.join('; ') : JSON.stringify(value);
}

export function csvLine(values: readonly unknown[]): string {
  return `${values.map(csvCell).join(',')}\r\n`;
}

/** The fields of the rows, in the order in which they first come. */
export function fieldsOf(rows: Answer['rows']): string[] {
  const fields = new Set<string>();
  for (const row of rows) for (const field of Object.keys(row)) fields.add(field);
  return [...fields];
}

/** All rows of an answer under the names of their fields. */
export function answerCsv(answer: Pick<Answer, 'rows' | 'figures'>): string {
  const fields = answer.rows.length > 0 ? fieldsOf(answer.rows) : tableFields(answer.figures);
  return csvLine(fields) + answer.rows.map((row) => csvLine(fields.map((field) => row[field]))).join('');
}

function tableFields(figures: Answer['figures']): string[] {
  for (const figure of figures)
    if (figure.figure === 'table') return figure.columns.map(({ field }) => field);
  return [];
}
