/** Which column of ours each heading of a file stands for. */
import type { Bad } from './records.ts';
import { shortened } from './records.ts';

/** The page and the command line give it as { theirHeading: ourColumn }; an empty column leaves theirs out. */
export type Mapping = Readonly<Record<string, string>>;

export interface Heading<Column extends string> {
  readonly heading: string;
  readonly column?: Column;
}

export interface Headings<Column extends string> {
  /** In the order of the file. Those without a column are not read. */
  readonly headings: readonly Heading<Column>[];
  readonly problems: readonly Bad[];
}

/** 'Second Price' and 'second-price' are second_price. */
const plain = (heading: string): string =>
  heading
    .normalize('NFC')
    .trim()
    .toLowerCase()
    .replace(/[\s\-_]+/g, '_');

/** The file's headings as they are compared and remembered. */
export const headingsKey = (headings: readonly string[]): string =>
  JSON.stringify(headings.map(plain).sort());

export function readHeadings<Column extends string>(
  fields: readonly string[],
  line: number,
  columns: readonly Column[],
  mapping: Mapping,
): Headings<Column> {
  const ours = new Map<string, Column>(columns.map((column) => [column, column]));
  /* A Map, as a heading may be any text, '__proto__' too. */
  const mapped = new Map(Object.entries(mapping).map(([theirs, column]) => [plain(theirs), column]));
  const problems: Bad[] = [];
  const taken = new Map<Column, string>();
  const headings = fields.map((field): Heading<Column> => {
    const heading = field.trim();
    const name = plain(field);
    const said = mapped.get(name);
    const column = ours.get(said === undefined ? name : plain(said));
    if (said !== undefined && said.trim() !== '' && column === undefined) {
      problems.push({
        line,
        column: shortened(heading),
        found: shortened(said),
        expected: `one of the columns ${columns.join(', ')}`,
      });
    }
    if (column === undefined) return { heading };
    if (taken.has(column)) {
      problems.push({
        line,
        column,
        found: shortened(heading),
        expected: `one heading for ${column}: ‘${taken.get(column)}’ stands for it already`,
      });
      return { heading };
    }
    taken.set(column, shortened(heading));
    return { heading, column };
  });
  return { headings, problems };
}
