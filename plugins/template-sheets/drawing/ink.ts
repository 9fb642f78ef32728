/** Lines and words as marks on paper. */
import type { Pen as Ink, Mark } from '../../../server/contract/paper.ts';
import type { Point } from '../piece.ts';
import { SIZE_DASHES, STROKES } from '../sheets/pens.ts';

/** mm; 1 µm is finer than any printer. */
const n = (mm: number): string => String(Math.round(mm * 1_000) / 1_000);

/** Of points joined by straight lines, as path data. */
export function pathOf(points: readonly Point[], closed: boolean): string {
  const [first, ...rest] = points;
  const spot = ([x, y]: Point) => `${n(x)} ${n(y)}`;
  return `M${spot(first!)}L${rest.map(spot).join(' ')}${closed ? 'Z' : ''}`;
}

/** @param nth of a cut line in a nest: which size it is of */
export function inkOf(stroke: keyof typeof STROKES, nth = 0): Ink {
  const { width } = STROKES[stroke];
  const dash = stroke === 'cut' ? SIZE_DASHES[nth]! : STROKES[stroke].dash;
  return dash.length === 0 ? { width } : { width, dash: [...dash] };
}

type Words = Extract<Mark, { mark: 'words' }>;

export const words = (
  text: Words['text'],
  x: number,
  y: number,
  size: number,
  rest: Partial<Words> = {},
): Words => ({
  mark: 'words',
  text,
  x,
  y,
  size,
  ...rest,
});

/** @param title what the marks show together, where they are one picture */
export const moved = (x: number, y: number, marks: Mark[], title?: string): Mark => ({
  mark: 'group',
  x,
  y,
  marks,
  ...(title === undefined ? {} : { title: title.slice(0, 500) }),
});

/** A measure as it is said: '120', '62.5'. */
export const mm = (value: number): string => String(Math.round(value * 10) / 10);
