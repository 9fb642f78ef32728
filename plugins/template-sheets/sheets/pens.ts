/** How lines are told apart without colour: by width and dash. */
import type { Pen } from '../piece.ts';

/** Width and lengths of stroke and gap in turn, mm. Any home printer shows 0.2 mm. */
export interface Stroke {
  readonly width: number;
  readonly dash: readonly number[];
}

export const STROKES: Readonly<Record<Pen | 'trim' | 'join', Stroke>> = {
  cut: { width: 0.5, dash: [] },
  fold: { width: 0.35, dash: [5, 2.5] },
  bevel: { width: 0.35, dash: [6, 1.6, 0.6, 1.6] },
  mark: { width: 0.25, dash: [0.6, 1.6] },
  trim: { width: 0.2, dash: [2, 2] },
  join: { width: 0.25, dash: [] },
};

/** Cut lines of the sizes of a nest, the largest first: told apart by their dashes, and by the name on each. */
export const SIZE_DASHES: readonly Stroke['dash'][] = [
  [],
  [9, 1.6],
  [3.5, 1.6],
  [9, 1.6, 3.5, 1.6],
  [1.6, 1.2],
  [9, 1.6, 1.6, 1.2, 1.6, 1.6],
];

export const THINNEST = 0.2;
