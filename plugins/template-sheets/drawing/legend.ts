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
export function shortLegend(strokes: readonly Stroke[], x: number, y: number, step: number): Mark[] {
  return strokes
    .filter((stroke) => stroke !== 'join')
    .flatMap((stroke, at): Mark[] => [
      sample(stroke, x + at * step, y, 9.8),
      words(SAID[stroke].short, x + at * step + 11.6, y, 2.1, { vertical: 'middle' }),
    ]);
}

/** One under another; returns their height as well. */
export function longLegend(strokes: readonly Stroke[], width: number): { marks: Mark[]; height: number } {
  const step = 6.4;
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
  return { marks, height: strokes.length * step };
}
