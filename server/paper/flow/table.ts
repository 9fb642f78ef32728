/** Tables: widths by what is in the columns, a head that comes again, rows that are not broken. */
import type { Block, PaperCell } from '../../contract/paper.ts';
import { type FontBook, languageOf } from '../fonts/book.ts';
import { type Drawable, plain } from '../marks.ts';
import type { Tag } from '../tags.ts';
import { shapeText } from '../text/clusters.ts';
import { type Laid, longestWord } from '../text/lay.ts';
import { layBlock } from './lay-block.ts';
import { LEADING, type Measures, SIZES, type Strip } from './measures.ts';

export type Table = Extract<Block, { block: 'table' }>;
type Column = Table['columns'][number];

/** Between two columns, and above and below the text of a row. */
const GAP = 3;
const PAD = 1;

interface Cell {
  readonly text: string;
  readonly weight: 'regular' | 'bold';
  readonly drawing?: {
    readonly width: number;
    readonly height: number;
    readonly marks: readonly Drawable[];
    readonly title?: string;
  };
}

function cellOf(cell: PaperCell | undefined): Cell {
  const whole = typeof cell === 'object' && !Array.isArray(cell) && !('person' in cell) && !('hash' in cell);
  if (!whole) return { text: cell === undefined ? '' : plain(cell), weight: 'regular' };
  const { text, weight = 'regular', drawing } = cell;
  return { text: text === undefined ? '' : plain(text), weight, drawing };
}

export function tableStrips(table: Table, { inner, room }: Measures, book: FontBook): Strip[] {
  const size = SIZES[table.size ?? 'body'];
  const head = table.columns.map(({ label }): Cell => ({ text: plain(label), weight: 'bold' }));
  const rows = table.rows.map((row) => table.columns.map((_, at) => cellOf(row[at])));
  const widths = widthsOf(table.columns, [head, ...rows], inner, size, book);
  const setRow = (cells: readonly Cell[]) =>
    cells.map((cell, at) => {
      const laid = layBlock(cell.text, book, size, cell.weight, widths[at]!);
      // A drawing alone has no empty line under it.
      return cell.drawing && cell.text === '' ? { ...laid, lines: [], height: 0 } : laid;
    });
  const places = { columns: table.columns, widths, inner };
  const whole: Tag = { as: 'Table' };
  const headRow: Tag = { as: 'TR', within: whole };
  const headTags = head.map((): Tag => ({ as: 'TH', within: headRow }));
  const headStrip = strip(setRow(head), [], places, { width: 0.35 }, 4, headTags);
  const body = rows.flatMap((cells): Strip[] => {
    const drawings = cells.map((cell) => cell.drawing);
    const row: Tag = { as: 'TR', within: whole };
    const tags = cells.map((): Tag => ({ as: 'TD', within: row }));
    return chunks(setRow(cells), room - headStrip.height - 2 * PAD, size).map((laid, at) => ({
      ...strip(laid, at === 0 ? drawings : [], places, { width: 0.12, shade: 0.45 }, 0, tags),
      head: headStrip,
    }));
  });
  return [{ ...headStrip, withNext: body.length > 0 }, ...body];
}

interface Places {
  readonly columns: readonly Column[];
  readonly widths: readonly number[];
  readonly inner: number;
}

/** A row that is higher than a page goes on on the next one. */
function chunks(row: readonly Laid[], room: number, size: number): (readonly Laid[])[] {
  const fit = Math.max(1, Math.floor(room / (size * LEADING)));
  const most = Math.max(...row.map(({ lines }) => lines.length));
  const parts: (readonly Laid[])[] = [];
  for (let from = 0; from < Math.max(1, most); from += fit)
    parts.push(
      row.map((laid) => {
        const lines = laid.lines.slice(from, from + fit);
        return { ...laid, lines, height: lines.length * laid.step };
      }),
    );
  return parts;
}

function strip(
  row: readonly Laid[],
  drawings: readonly Cell['drawing'][],
  { columns, widths, inner }: Places,
  rule: { width: number; shade?: number },
  before: number,
  tags: readonly Tag[],
): Strip {
  const marks: Drawable[] = [];
  let x = 0;
  let height = 0;
  row.forEach((laid, at) => {
    const width = widths[at]!;
    const drawing = drawings[at];
    const scale = drawing === undefined ? 1 : Math.min(1, width / drawing.width);
    const above = drawing === undefined ? 0 : drawing.height * scale + (laid.height > 0 ? PAD : 0);
    if (drawing) marks.push({ mark: 'group', x, y: PAD, scale, title: drawing.title, marks: drawing.marks });
    const align = columns[at]!.align === 'end' ? 'right' : 'left';
    marks.push({ mark: 'laid', laid, x, y: PAD + above, width, align, tag: tags[at] });
    height = Math.max(height, above + laid.height);
    x += width + GAP;
  });
  const whole = height + 2 * PAD;
  marks.push({
    mark: 'line',
    points: [
      [0, whole],
      [inner, whole],
    ],
    pen: rule,
  });
  return { height: whole, before, marks };
}

/** Each as wide as it wants where there is room; otherwise in between that and its longest word. */
function widthsOf(
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  inner: number,
  size: number,
  book: FontBook,
): number[] {
  const room = inner - GAP * (columns.length - 1);
  const wants = columns.map((column, at) =>
    wantOf(
      column,
      rows.map((row) => row[at]!),
      size,
      book,
    ),
  );
  const sum = (of: 'least' | 'most') => wants.reduce((all, it) => all + it[of], 0);
  const [least, most] = [sum('least'), sum('most')];
  if (least >= room) return wants.map((it) => (it.least * room) / least);
  if (most >= room)
    return wants.map((it) => it.least + ((it.most - it.least) * (room - least)) / (most - least));
  const shares = columns.map(({ share, width, align }, at) =>
    width !== undefined
      ? 0
      : (share ?? (columns.some((it) => it.share !== undefined) || align === 'end' ? 0 : wants[at]!.most)),
  );
  const all = shares.reduce((total, share) => total + share, 0);
  return wants.map((it, at) => it.most + (all === 0 ? 0 : ((room - most) * shares[at]!) / all));
}

function wantOf(
  { width }: Column,
  cells: readonly Cell[],
  size: number,
  book: FontBook,
): { least: number; most: number } {
  if (width !== undefined) return { least: width, most: width };
  let least = 4;
  let most = 4;
  for (const { text, weight, drawing } of cells) {
    const language = languageOf(text);
    for (const line of text.split('\n')) {
      const shaped = shapeText(line, book, { weight, direction: 'auto', language });
      least = Math.max(least, longestWord(shaped, size, 0));
      most = Math.max(
        most,
        shaped.clusters.reduce((sum, it) => sum + it.width * size, 0),
      );
    }
    if (drawing) {
      least = Math.max(least, Math.min(drawing.width, 30));
      most = Math.max(most, drawing.width);
    }
  }
  // A hair more, so that what just fits is not broken for the last bit of a number.
  return { least: least + 0.01, most: most + 0.01 };
}
