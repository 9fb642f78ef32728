/** What each kind of line means, with a stretch of it. */
import type { Mark } from '../../../server/contract/paper.ts';
import { STROKES } from '../sheets/pens.ts';
import type { Sheets } from '../sheets/sheet.ts';
import { inkOf, words } from './ink.ts';

type Stroke = keyof typeof STROKES;

const SAID: Readonly<Record<Stroke, { short: string; long: string }>> = {
  cut: { short: 'cut', long: 'Cut through the clay.' },
  fold: { short: 'fold', long: 'Fold or score here; do not cut.' },
  bevel: { short: 'bevel', long: 'Bevel from here to the edge, so that the two edges overlap.' },
  mark: { short: 'mark', long: 'Mark lightly: a place or a middle.' },
  trim: { short: 'trim', long: 'Trim the page here, and lay it over its neighbour.' },
  join: { short: 'join', long: 'Half an arrow on each page: bring the two with the same letter together.' },
};

/** Those that come on the sheets. */
export function strokesOf({ sheets }: Sheets): Stroke[] {
  const used = new Set<Stroke>(sheets.flatMap(({ lines }) => lines.map(({ pen }) => pen)));
  if (sheets.some(({ trims }) => trims.length > 0)) used.add('trim').add('join');
  return (Object.keys(STROKES) as Stroke[]).filter((stroke) => used.has(stroke));
}

const sample = (stroke: Stroke, x: number, y: number, long: number): Mark => ({
  mark: 'line',
  points: [
    [x, y],
    [x + long, y],
  ],
  pen: inkOf(stroke),
});

/** In one line, `step` mm for each. */
export function shortLegend(strokes: readonly Stroke[], step: number): Mark[] {
  return strokes
    .filter((stroke) => stroke !== 'join')
    .flatMap((stroke, at): Mark[] => [
      sample(stroke, at * step, 0, 9.8),
      words(SAID[stroke].short, at * step + 11.6, 0, 2.1, { vertical: 'middle' }),
    ]);
}

/** The cut lines of the sizes of nests, the largest first: how many there are. */
export const nestedSizes = ({ sheets }: Sheets): number =>
  1 + Math.max(-1, ...sheets.flatMap(({ lines }) => lines.map(({ nth = -1 }) => nth)));

/** One under another; returns their height as well. @param sizes how many are drawn inside one another */
export function longLegend(
  strokes: readonly Stroke[],
  width: number,
  sizes = 0,
): { marks: Mark[]; height: number } {
  const step = 6.4;
  const inNest = sizes < 2 ? [] : sizesLegend(sizes, strokes.length * step, step, width);
  const marks = strokes.flatMap((stroke, at): Mark[] => {
    const y = at * step + step / 2;
    const shown: Mark =
      stroke === 'join'
        ? {
            mark: 'line',
            points: [
              [6, y - 2.2],
              [9, y - 2.2],
              [8.4, y + 2.2],
            ],
            closed: true,
            pen: inkOf('join'),
          }
        : sample(stroke, 0, y, 20);
    return [
      shown,
      words(SAID[stroke].long, 23, y - 2.6, 2.9, {
        width: width - 23,
        height: 5.2,
        fit: 'shrink',
        vertical: 'middle',
        leading: 1,
      }),
    ];
  });
  return {
    marks: [...marks, ...inNest],
    height: (strokes.length + (inNest.length > 0 ? sizes - 1 : 0)) * step,
  };
}

/** The full line is that of the largest size; the others have dashes of their own. */
const sizesLegend = (sizes: number, top: number, step: number, width: number): Mark[] =>
  Array.from({ length: sizes - 1 }, (_, at): Mark[] => {
    const y = top + at * step + step / 2;
    return [
      { ...sample('cut', 0, y, 20), pen: inkOf('cut', at + 1) } as Mark,
      words(`Cut line ${at + 2} of a nest: a smaller size, named on the line.`, 23, y - 2.6, 2.9, {
        width: width - 23,
        height: 5.2,
        fit: 'shrink',
        vertical: 'middle',
        leading: 1,
      }),
    ];
  }).flat();
