/** A sheet of labels, measured with a ruler: where each label lies. Pure; the page draws its preview with it. */
import { PAPERS } from '../../server/contract/paper.ts';

/** Lengths in mm. */
export interface LabelGrid {
  /** 'one': a page for each label, of the label's own size, as on a roll. */
  readonly paper: 'A4' | 'Letter' | 'one';
  readonly columns: number;
  readonly rows: number;
  /** Of one label. */
  readonly width: number;
  readonly height: number;
  /** From the edges of the sheet to the first label. */
  readonly left: number;
  readonly top: number;
  /** From the left edge of one label to that of the next, and from top to top. */
  readonly across: number;
  readonly down: number;
}

/** Two by four on A4 without gaps, until the user measures their own. */
export const FIRST_GRID: LabelGrid = {
  ...{ paper: 'A4', columns: 2, rows: 4, width: 99, height: 67, left: 4.5, top: 13, across: 99, down: 67 },
};

export const sheetOf = ({ paper, width, height }: LabelGrid): { width: number; height: number } =>
  paper === 'one' ? { width, height } : PAPERS[paper];

export const labelsOn = ({ paper, columns, rows }: LabelGrid): number =>
  paper === 'one' ? 1 : columns * rows;

/** Upper left corners, row by row. */
export function placesOf(grid: LabelGrid): [x: number, y: number][] {
  if (grid.paper === 'one') return [[0, 0]];
  const { columns, left, top, across, down } = grid;
  return Array.from({ length: labelsOn(grid) }, (_, n) => [
    left + (n % columns) * across,
    top + Math.floor(n / columns) * down,
  ]);
}

const round = (mm: number): number => Math.round(mm * 10) / 10;

/** Why such labels cannot be; undefined where they can. */
export function wrongWith(
  grid: LabelGrid,
): { readonly field: keyof LabelGrid; readonly sentence: string } | undefined {
  const { paper, columns, rows, width, height, left, top, across, down } = grid;
  if (paper === 'one') return undefined;
  const sheet = PAPERS[paper];
  const right = left + across * (columns - 1) + width;
  const bottom = top + down * (rows - 1) + height;
  if (right > sheet.width + 0.01 || bottom > sheet.height + 0.01)
    return {
      field: right > sheet.width + 0.01 ? 'columns' : 'rows',
      sentence: `${columns} by ${rows} labels of ${width} by ${height} mm reach to ${round(right)} by ${round(bottom)} mm; ${paper} is ${sheet.width} by ${sheet.height} mm.`,
    };
  if ((columns > 1 && across < width - 0.01) || (rows > 1 && down < height - 0.01))
    return {
      field: columns > 1 && across < width - 0.01 ? 'across' : 'down',
      sentence: 'Labels would lie over each other: the distance is less than their size.',
    };
  return undefined;
}
