/** One page of a set: its part of the pieces, how it joins its neighbours, and what is needed to print it right. */
import type { Mark, Sheet as PaperSheet } from '../../../server/contract/paper.ts';
import type { Pen, Point } from '../piece.ts';
import type { Join, Page, Sheet, Sheets, SizeLabel, Trim } from '../sheets/sheet.ts';
import type { Dressing } from './dressing.ts';
import { inkOf, mm, moved, pathOf, words } from './ink.ts';
import { shortLegend, strokesOf } from './legend.ts';
import { mapMarks } from './page-map.ts';
import { RULER, rulerMarks } from './ruler.ts';

/** What the whole set says. */
export interface Titled {
  readonly name: string;
  /** Fired size and shrinkage in a few words, of a size of the set or of all. */
  readonly size: (name?: string) => string;
  readonly dressing: Dressing;
}

export function drawSheet(sheet: Sheet, all: Sheets, titled: Titled): PaperSheet {
  const { page } = all;
  const { width, height } = page.paper;
  const marks = [
    ...headMarks(sheet, page, titled),
    moved(
      0,
      0,
      (['mark', 'bevel', 'fold', 'cut'] as const).flatMap((pen) => lineMarks(sheet, pen)),
      `Lines at true size: ${used(sheet).join(', ')}`,
    ),
    ...sheet.labels.flatMap(labelMarks),
    ...sheet.texts.map(({ text, at, size, width: room }) =>
      words(text, at[0] - room / 2, at[1] - size * 0.65, size, {
        width: room,
        height: size * 1.3,
        fit: 'shrink',
        align: 'middle',
        vertical: 'middle',
      }),
    ),
    ...sheet.trims.flatMap(trimMarks),
    ...sheet.joins.flatMap((join) => joinMarks(join, sheet)),
    moved(page.margin, height - page.margin - page.foot + 1.5, footMarks(sheet, all, titled)),
  ];
  return { width, height, marks };
}

const used = ({ lines }: Sheet): Pen[] => [...new Set(lines.map(({ pen }) => pen))];

function lineMarks({ lines }: Sheet, pen: Pen): Mark[] {
  const own = lines.filter((line) => line.pen === pen && line.points.length > 1);
  const sizes = [...new Set(own.map(({ nth = 0 }) => nth))];
  return sizes.map((size) => ({
    mark: 'path',
    d: own
      .filter(({ nth = 0 }) => nth === size)
      .map(({ points, closed }) => pathOf(points, closed))
      .join(''),
    pen: inkOf(pen, size),
  }));
}

/** The line gives way to the name of its size. */
function labelMarks({ text, at, turn, size }: SizeLabel): Mark[] {
  const width = Math.max(4, text.length * size * 0.62);
  return [
    {
      mark: 'group',
      x: at[0],
      y: at[1],
      turn,
      marks: [
        { mark: 'box', x: -width / 2, y: -size * 0.6, width, height: size * 1.2, fill: 1 },
        words(text, -width / 2, -size * 0.65, size, {
          width,
          height: size * 1.3,
          fit: 'shrink',
          align: 'middle',
          vertical: 'middle',
        }),
      ],
    },
  ];
}

function trimMarks({ from, to, cut, neighbour }: Trim): Mark[] {
  if (!cut) return [];
  const upright = Math.abs(to[0] - from[0]) < 1e-6;
  const text = `Trim here and lay over page ${neighbour}`;
  const at = (share: number): Point => [
    from[0] + (to[0] - from[0]) * share,
    from[1] + (to[1] - from[1]) * share,
  ];
  const [x, y] = at(0.4);
  // On the part that is cut off, so that it is gone once the pages are joined.
  const turned = upright
    ? ({ x: x - 1, turn: -90, align: 'middle', vertical: 'bottom' } as const)
    : ({ y: y - 1, vertical: 'bottom' } as const);
  return [
    { mark: 'line', points: [[...from], [...to]], pen: inkOf('trim') },
    words(text, x, y, 2, { ...turned, shade: 0.3 }),
  ];
}

/** An arrow, with its letter to either side of the line that it crosses. */
function joinMarks({ label, at, arrow, to }: Join, sheet: Sheet): Mark[] {
  const trim = sheet.trims.find(({ neighbour }) => neighbour === to)!;
  const upright = Math.abs(trim.to[0] - trim.from[0]) < 1e-6;
  const sides = [-2.6, 2.6].map(
    (across): Point => (upright ? [at[0] + across, at[1] + 8] : [at[0] + 8, at[1] + across]),
  );
  const marks: Mark[] = [
    {
      mark: 'line',
      points: arrow.map(([x, y]): [number, number] => [x, y]),
      closed: true,
      pen: inkOf('join'),
    },
    ...sides.map(([x, y]) =>
      words(label, x, y, 2.4, { weight: 'bold', align: 'middle', vertical: 'middle' }),
    ),
  ];
  return [moved(0, 0, marks, `Arrow ${label}, to page ${to}`)];
}

function headMarks(
  { page: number, pages, size: ofSet }: Sheet,
  { paper, margin, head }: Page,
  { name, size, dressing }: Titled,
): Mark[] {
  const inner = paper.width - 2 * margin;
  const y = margin;
  const aside = 44;
  const titled = ofSet === undefined ? name : `${name}, ${ofSet}`;
  // A short name leaves its room to the measures.
  const title = Math.min((inner - aside) * 0.5, 6 + titled.length * 2.6);
  const version = dressing.version === undefined ? '' : ` · version ${dressing.version}`;
  const order = dressing.order === undefined ? '' : ` · for order ${dressing.order}`;
  return [
    words(titled, margin, y, 4.2, {
      weight: 'bold',
      heading: 1,
      width: title,
      height: 5.5,
      fit: 'shrink',
    }),
    words(`${size(ofSet)}${version}${order}`, margin + title + 3, y + 1, 2.8, {
      width: inner - aside - title - 3,
      height: 5,
      fit: 'shrink',
    }),
    words(`Page ${number} of ${pages}`, paper.width - margin, y, 4.2, { weight: 'bold', align: 'right' }),
    {
      mark: 'line',
      points: [
        [margin, y + head - 2.2],
        [paper.width - margin, y + head - 2.2],
      ],
      pen: { width: 0.2 },
    },
  ];
}

const MAP = { width: 30, height: 15.5 };

function footMarks(sheet: Sheet, all: Sheets, { dressing }: Titled): Mark[] {
  const inner = all.page.paper.width - 2 * all.page.margin;
  const map = all.maps[sheet.plane]!;
  const mapped = map.pages.length > 1;
  const left = RULER.width + 5;
  const width = inner - left - (mapped ? MAP.width + 3 : 0);
  const strokes = strokesOf(all);
  const own = [dressing.maker, dressing.licence]
    .filter((text) => text !== undefined && text !== '')
    .join('. ');
  return [
    moved(0, 0, rulerMarks(), RULER.title),
    moved(
      0,
      13.8,
      shortLegend(strokes, RULER.width / Math.max(4, strokes.length - 1)),
      'How the lines are drawn',
    ),
    words('Print at 100 %', left, 0, 3.2, { weight: 'bold' }),
    words('Lay a ruler on these scales before you cut: 100 mm must be 100 mm.', left, 4.4, 2.5, {
      width,
      height: 6.4,
      fit: 'shrink',
    }),
    words(own, left, 11, 2.3, { width, height: 5, fit: 'shrink', least: 1.5, vertical: 'bottom' }),
    ...(mapped ? mapMarks(map, { x: inner - MAP.width, y: 0, ...MAP }, { here: sheet.page }) : []),
  ];
}

export const sizeInWords = (width: number, height: number): string => `${mm(width)} × ${mm(height)} mm`;
