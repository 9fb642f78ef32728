/**
 * Records of a CSV text (RFC 4180) with the physical line each begins on. A line that cannot
 * be split into fields is named, and reading goes on at the line after it.
 */
import { type CsvError, parse } from 'csv-parse/sync';
import { Unreadable } from './source.ts';

export interface RawRecord {
  /** Line of the file it begins on, from 1. */
  readonly line: number;
  readonly fields: readonly string[];
}

/** What is wrong with a row, and where. `column` is empty when it is the whole row. */
export interface Bad {
  readonly line: number;
  readonly column: string;
  readonly found: string;
  readonly expected: string;
}

export type Delimiter = ',' | ';' | '\t';

/** Characters in one record, quoted line breaks included. */
const LONGEST_RECORD = 100_000;
const BLOCK = 1 << 18;
/** More lines than this that cannot be split mean that the file is something else. */
const MOST_UNSPLIT = 500;

export const isBad = (read: RawRecord | Bad): read is Bad => 'expected' in read;

/** CRLF, LF and CR all end a line, mixed or not. */
export async function* physicalLines(chunks: AsyncIterable<string>): AsyncGenerator<string[]> {
  let rest = '';
  for await (const chunk of chunks) {
    const text = rest + chunk;
    /* A CR at the very end may be the first half of a CRLF. */
    const whole = text.endsWith('\r') ? text.length - 1 : text.length;
    const lines = text.slice(0, whole).split(/\r\n|\n|\r/);
    rest = lines.pop()! + text.slice(whole);
    if (rest.length > 10 * LONGEST_RECORD) {
      throw new Unreadable(
        `A line of this file is longer than ${10 * LONGEST_RECORD} characters: this is no CSV file.`,
      );
    }
    if (lines.length > 0) yield lines;
  }
  if (rest !== '') yield [rest.replace(/\r$/, '')];
}

/** The one of comma, semicolon and tab that stands most often in the heading line, outside quotes. */
export function delimiterOf(headingLine: string): Delimiter {
  const bare = headingLine.replace(/"[^"]*"/g, '');
  const times = (mark: string): number => bare.split(mark).length - 1;
  let best: Delimiter = ',';
  for (const mark of [';', '\t'] as const) if (times(mark) > times(best)) best = mark;
  return best;
}

/** All records, empty lines left out; the first one is the headings. */
export async function* readRecords(chunks: AsyncIterable<string>): AsyncGenerator<RawRecord | Bad> {
  const splitter = new Splitter();
  for await (const lines of physicalLines(chunks)) {
    splitter.add(lines);
    if (splitter.waiting >= BLOCK) yield* splitter.take(false);
  }
  yield* splitter.take(true);
}

class Splitter {
  waiting = 0;
  #lines: string[] = [];
  /** Line of the file that #lines begins with. */
  #at = 1;
  #delimiter: Delimiter | undefined;
  /** How many fields the headings have. */
  #width: number | undefined;
  #unsplit = 0;

  add(lines: readonly string[]): void {
    for (const line of lines) {
      this.#lines.push(line);
      this.waiting += line.length + 1;
    }
  }

  *take(end: boolean): Generator<RawRecord | Bad> {
    this.#findDelimiter();
    while (this.#lines.length > 0) {
      const { records, error } = this.#uptoSwallowed(
        splitBlock(this.#lines, this.#at, this.#delimiter ?? ','),
      );
      for (const record of records) if (record.fields.some((field) => field.trim() !== '')) yield record;
      if (error === undefined) return this.#drop(this.#lines.length);
      this.#drop((records.at(-1)?.end ?? this.#at - 1) - this.#at + 1);
      if (error === 'CSV_QUOTE_NOT_CLOSED' && !end && this.waiting < LONGEST_RECORD) return;
      yield this.#afresh(error);
    }
  }

  /**
   * A mark opened in one row and closed by a mark in a later one takes the rows between with it: such a
   * record has several lines and another number of fields than the headings. It is cut at its first line.
   */
  #uptoSwallowed(split: Split): Split {
    this.#width ??= split.records.find((record) =>
      record.fields.some((field) => field !== ''),
    )?.fields.length;
    const at = split.records.findIndex(
      (record) => record.end > record.line && record.fields.length !== this.#width,
    );
    return at < 0 ? split : { records: split.records.slice(0, at), error: SWALLOWED };
  }

  /** The heading line shows the delimiter; some spreadsheets say it on a line of its own before: sep=; */
  #findDelimiter(): void {
    while (this.#delimiter === undefined && this.#lines.length > 0) {
      const said = /^\s*sep=([,;\t])\s*$/i.exec(this.#lines[0]!);
      if (said === null && this.#lines[0]!.trim() !== '') {
        this.#delimiter = delimiterOf(this.#lines[0]!);
        return;
      }
      this.#drop(1);
      if (said !== null) this.#delimiter = said[1] as Delimiter;
    }
  }

  #drop(lines: number): void {
    for (const line of this.#lines.splice(0, lines)) this.waiting -= line.length + 1;
    this.#at += lines;
  }

  /** The first waiting line could not be split: once more with stray quotation marks allowed, or it is bad. */
  #afresh(error: string): RawRecord | Bad {
    const line = this.#at;
    const text = this.#lines[0]!;
    this.#drop(1);
    if (error === 'INVALID_OPENING_QUOTE') {
      const { records } = splitBlock([text], line, this.#delimiter ?? ',', true);
      if (records.length === 1) return records[0]!;
    }
    if (++this.#unsplit > MOST_UNSPLIT) {
      throw new Unreadable(
        `More than ${MOST_UNSPLIT} lines of this file cannot be split into columns: this is no CSV file.`,
      );
    }
    return { line, column: '', found: shortened(text), expected: expectedAfter(error) };
  }
}

const SWALLOWED = 'SWALLOWED';

function expectedAfter(error: string): string {
  if (error === 'CSV_QUOTE_NOT_CLOSED' || error === SWALLOWED) {
    return 'a closing quotation mark: the one opened in this row is never closed, or the file was cut short';
  }
  return 'a field with quotation marks to stand in quotation marks, and each mark in it to be doubled';
}

/** At most 80 characters of what was found, for a message. */
export const shortened = (text: string): string => (text.length > 80 ? `${text.slice(0, 79)}…` : text);

interface Split {
  readonly records: (RawRecord & { readonly end: number })[];
  /** The code that csv-parse gives. */
  readonly error?: string;
}

function splitBlock(lines: readonly string[], first: number, delimiter: Delimiter, relaxed = false): Split {
  const records: (RawRecord & { end: number })[] = [];
  let next = first;
  try {
    parse(`${lines.join('\n')}\n`, {
      delimiter,
      record_delimiter: '\n',
      relax_column_count: true,
      relax_quotes: relaxed,
      max_record_size: 0,
      on_record: (fields: string[], { lines: end }) => {
        records.push({ line: next, fields, end: first + end - 1 });
        next = first + end;
        return null;
      },
    });
    return { records };
  } catch (error) {
    return { records, error: (error as CsvError).code };
  }
}
