/** Reading one cell: a value, or the part that does not fit and what would. */
import { handleOf } from '../studio/values.ts';

export interface Unfit {
  readonly found: string;
  /** Completes 'expected …'. */
  readonly expected: string;
}
export type Reading<T> = { readonly value: T } | Unfit;

export const failed = <T>(reading: Reading<T>): reading is Unfit => 'expected' in reading;

export const unfit = (found: string, expected: string): Unfit => ({ found, expected });

/** Characters that the log cannot keep unchanged, or that are no text: controls and halves of surrogate pairs. */
const NO_TEXT = /[^\P{Cc}\t\n]|\p{Cs}/u;

export function readText(cell: string, longest: number): Reading<string> {
  const at = NO_TEXT.exec(cell);
  if (at !== null) {
    const code = at[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0');
    return unfit(cell.replaceAll(at[0], `[U+${code}]`), 'text without control characters');
  }
  if (cell.length > longest) return unfit(cell, `at most ${longest} characters; this has ${cell.length}`);
  return { value: cell };
}

/** A name on one line: of a form, a clay, a kiln, a person. */
export function readName(cell: string): Reading<string> {
  const text = cell.normalize('NFC').replace(/\s+/g, ' ').trim();
  return text === '' ? unfit(cell, 'a name') : readText(text, 120);
}

/** A name that a handle can be made of. */
export function readNamed(cell: string): Reading<string> {
  const name = readName(cell);
  if (failed(name)) return name;
  return handleOf(name.value) === '' ? unfit(cell, 'a name with a letter or a digit in it') : name;
}

const MOST = 100_000;

export function readCount(cell: string): Reading<number> {
  const value = /^\+?\d{1,6}$/.test(cell) ? Number(cell) : Number.NaN;
  if (value >= 1 && value <= MOST) return { value };
  return unfit(cell, `a whole number of pieces, from 1 to ${MOST.toLocaleString('en-GB')}`);
}

/** The parts of a list, which ; or a line break divides. */
export const listed = (cell: string): string[] =>
  cell
    .split(/[;\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');

/** 'runs x3' is runs and 3. */
export function withTimes(part: string): { text: string; times?: string } {
  const match = /^(.*?)\s+[x×]\s*(-?[\d.,]+)$/is.exec(part);
  return match === null ? { text: part } : { text: match[1]!.trim(), times: match[2]! };
}
