/** The last page of a set: what it makes, how its pages go together, and the maker's words. */
import type { Mark, Sheet as PaperSheet } from '../../../server/contract/paper.ts';
import { boxOf, heightOf, widthOf } from '../shape/measure.ts';
import type { Sheets } from '../sheets/sheet.ts';
import type { Template } from '../template.ts';
import { sizeInWords, type Titled } from './draw-sheet.ts';
import { factsOf } from './facts.ts';
import { moved, words } from './ink.ts';
import { longLegend, nestedSizes, strokesOf } from './legend.ts';
import { mapMarks } from './page-map.ts';
import { roundMarks } from './pot.ts';
import { RULER, rulerMarks } from './ruler.ts';

/** Of a roll only so much is taken up by it. */
const ON_A_ROLL = 297;
const MOST_LINES = 14;
/** Side of the picture of the pot, mm. */
const POT = 46;

function piecesOf({ made }: Template): [string, string][] {
  const rows = made.pieces.map(({ name, count, outline, notes }): [string, string] => {
    const box = boxOf(outline);
    const size = sizeInWords(widthOf(box), heightOf(box));
    return [count > 1 ? `${name} × ${count}` : name, [size, ...notes].join('; ')];
  });
  if (rows.length <= MOST_LINES) return rows;
  return [
    ...rows.slice(0, MOST_LINES - 1),
    [`and ${rows.length - MOST_LINES + 1} more`, 'each is named on its page'],
  ];
}

export function guidePage(template: Template, titled: Titled): PaperSheet {
  const { sheets, spec } = template;
  const { margin, paper } = sheets.page;
  const height = paper.name.startsWith('Roll') ? ON_A_ROLL : paper.height;
  const left = margin + 4;
  const inner = paper.width - 2 * left;
  const half = inner / 2 - 4;
  const upper = lines([...factsOf(template)], half);
  const pieces = lines(piecesOf(template), half);
  const sizes = nestedSizes(sheets);
  const legend = longLegend(strokesOf(sheets), half, sizes);
  const facts = stacked([upper, titledPart('Pieces, wet', pieces), titledPart('Lines', legend)]);
  const top = margin + 16;
  const bottom = height - margin - RULER.height - 8;
  const mapHeight = Math.min(Math.max(facts.height, 60), bottom - top - 40);
  const below = top + Math.max(facts.height, mapHeight) + 6;
  const pot = spec.form === 'drawing' ? undefined : roundMarks(spec, POT, bottom - below - 22);
  return {
    width: paper.width,
    height,
    marks: [
      words(titled.name, left, margin + 1, 7, {
        weight: 'bold',
        heading: 1,
        width: inner * 0.7,
        height: 10,
        fit: 'shrink',
      }),
      words(ownLine(titled), left + inner, margin + 3, 3.4, { align: 'right' }),
      {
        mark: 'line',
        points: [
          [left, margin + 12],
          [left + inner, margin + 12],
        ],
        pen: { width: 0.3 },
      },
      moved(left, top, facts.marks),
      ...mapsPart(template, { x: left + half + 8, y: top, width: half, height: mapHeight }),
      moved(
        left,
        below,
        wordsPart(
          titled,
          { width: inner, height: bottom - below, aside: pot ? POT + 6 : 0 },
          toDo(sheets, sizes > 1),
        ),
      ),
      ...(pot ? [moved(left + inner - POT, below + 14, pot, 'The pot in the round')] : []),
      moved(left, bottom + 3, rulerMarks(), RULER.title),
      words('Print at 100 %', left + RULER.width + 5, bottom + 3, 3.2, { weight: 'bold' }),
      words(
        'Not “fit to page”. Lay a ruler on these scales first.',
        left + RULER.width + 5,
        bottom + 7.6,
        2.5,
        {
          width: inner - RULER.width - 5,
          height: 6.6,
          fit: 'shrink',
        },
      ),
    ],
  };
}

interface Part {
  readonly marks: Mark[];
  readonly height: number;
}

/** Names with what is said of each; what is long gets two lines. */
function lines(rows: readonly (readonly [string, string])[], width: number): Part {
  const name = Math.min(38, width * 0.42);
  let y = 0;
  const marks: Mark[] = [];
  for (const [what, said] of rows) {
    const long = said.length * 1.55 > width - name;
    const height = long ? 7.6 : 4.4;
    const rest = { height, fit: 'shrink', least: 1.6 } as const;
    marks.push(
      words(what, 0, y, 2.9, { ...rest, width: name - 2, weight: 'bold' }),
      words(said, name, y, 2.9, { ...rest, width: width - name }),
    );
    y += height + 0.6;
  }
  return { marks, height: y };
}

const titledPart = (title: string, { marks, height }: Part): Part => ({
  marks: [words(title, 0, 0, 3.6, { weight: 'bold', heading: 2 }), moved(0, 6, marks)],
  height: height + 6,
});

function stacked(parts: readonly Part[]): Part {
  let y = 0;
  const marks: Mark[] = [];
  for (const part of parts) {
    marks.push(moved(0, y, part.marks));
    y += part.height + 4;
  }
  return { marks, height: y - 4 };
}

function mapsPart(
  { sheets }: Template,
  room: { x: number; y: number; width: number; height: number },
): Mark[] {
  const { maps } = sheets;
  const shown = maps.slice(0, 6);
  const columns = shown.length > 2 ? 2 : 1;
  const rows = Math.ceil(shown.length / columns);
  const cell = {
    width: (room.width - 4 * (columns - 1)) / columns,
    height: (room.height - 8 - 4 * (rows - 1)) / rows,
  };
  return [
    words(
      maps.length > shown.length
        ? `How the pages lie (the first ${shown.length} of ${maps.length} lots)`
        : 'How the pages lie',
      room.x,
      room.y,
      3.6,
      { weight: 'bold', heading: 2 },
    ),
    ...shown.flatMap((map, at) => {
      const x = room.x + (at % columns) * (cell.width + 4);
      const y = room.y + 7 + Math.floor(at / columns) * (cell.height + 4);
      return mapMarks(map, { x, y, ...cell }, { named: true });
    }),
  ];
}

/** Whose it is, and which version of it. */
const ownLine = ({ dressing: { maker, version } }: Titled): string =>
  [maker, version === undefined ? '' : `version ${version}`].filter((part) => part !== '').join(' · ');

const PRINT = 'Print all pages at 100 % and measure the ruler.';
const TOGETHER =
  'Trim each page along its dashed lines. Lay it over its neighbours so that arrows with the same letter meet, and glue or tape it down.';
const CUT = 'Then cut the pieces out along the full lines.';
const CUT_ONE = 'Then choose a size, and cut each piece out along the lines that bear its name.';

/** What is done with these sheets: single pages have nothing to be joined. */
const toDo = ({ sheets }: Sheets, nests: boolean): string =>
  [PRINT, sheets.some(({ trims }) => trims.length > 0) ? TOGETHER : '', nests ? CUT_ONE : CUT]
    .filter((part) => part !== '')
    .join(' ');

interface Room {
  readonly width: number;
  readonly height: number;
  /** mm at the right that the picture of the pot takes. */
  readonly aside: number;
}

function wordsPart({ dressing }: Titled, { width, height, aside }: Room, todo: string): Mark[] {
  const { howTo, licence, order } = dressing;
  const last = [licence, order === undefined ? undefined : `For order ${order}.`]
    .filter((it) => it !== undefined && it !== '')
    .join(' ');
  const own =
    howTo === undefined || howTo === ''
      ? []
      : [
          words('How to use it', 0, 14, 3.6, { weight: 'bold', heading: 2 }),
          words(howTo, 0, 20, 3.1, {
            width: width - aside,
            height: Math.max(10, height - 28),
            fit: 'shrink',
            least: 1.6,
          }),
        ];
  return [
    words(todo, 0, 0, 2.9, { width, height: 12, fit: 'shrink' }),
    ...own,
    words(last, 0, height - 5, 2.6, { width, height: 4.5, fit: 'shrink' }),
  ];
}
