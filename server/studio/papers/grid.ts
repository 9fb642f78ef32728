/** A sheet cut or printed into equal places: labels, cards, slips. */
import { z } from 'zod';
import { type Mark, PAPERS, type Sheet } from '../../contract/paper.ts';
import { PaperRefused } from '../../contract/plugin.ts';

const mm = (most: number) => z.coerce.number().min(0).max(most);

/** What a sheet of labels measures, from its package; in mm. */
export const gridFields = {
  paper: z.enum(['A4', 'Letter']).default('A4'),
  columns: z.coerce.number().int().min(1).max(12),
  rows: z.coerce.number().int().min(1).max(40),
  /** From the edge of the sheet to the first place. */
  left: mm(100),
  top: mm(100),
  /** Between two places. */
  across: mm(50),
  down: mm(50),
  /** Places of the first sheet that are used up already. */
  skip: z.coerce.number().int().min(0).max(400).default(0),
};

export interface Grid {
  readonly paper: 'A4' | 'Letter';
  readonly columns: number;
  readonly rows: number;
  readonly left: number;
  readonly top: number;
  readonly across: number;
  readonly down: number;
  readonly skip: number;
}

export interface Place {
  readonly width: number;
  readonly height: number;
}

/** The smallest place that anything can be read on. */
const LEAST = { width: 25, height: 12 };

/** @throws PaperRefused where nothing is left for the places */
export function placeOf({ paper, columns, rows, left, top, across, down }: Grid): Place {
  const { width, height } = PAPERS[paper];
  const place = {
    width: (width - 2 * left - (columns - 1) * across) / columns,
    height: (height - 2 * top - (rows - 1) * down) / rows,
  };
  if (place.width < LEAST.width || place.height < LEAST.height)
    throw new PaperRefused(
      `Each place would be ${place.width.toFixed(1)} × ${place.height.toFixed(1)} mm; it should be at least ${LEAST.width} × ${LEAST.height} mm. Take fewer columns or rows, or narrower margins.`,
      place.width < LEAST.width ? 'columns' : 'rows',
    );
  return place;
}

/** @param cut whether short lines at the corners show where to cut */
export function gridSheets<Thing>(
  things: readonly Thing[],
  grid: Grid,
  draw: (thing: Thing, place: Place) => Mark[],
  cut = false,
): Sheet[] {
  const place = placeOf(grid);
  const { columns, rows, left, top, across, down, paper } = grid;
  const each = columns * rows;
  if (grid.skip >= each)
    throw new PaperRefused(
      `A sheet has ${each} places; ${grid.skip} of them cannot be used up already.`,
      'skip',
    );
  const at = (n: number) => ({
    x: left + (n % columns) * (place.width + across),
    y: top + Math.floor(n / columns) * (place.height + down),
  });
  const pages = Math.ceil((things.length + grid.skip) / each);
  return Array.from({ length: pages }, (_, page) => {
    const first = page * each - grid.skip;
    const marks = Array.from({ length: each }, (__, n): Mark[] => {
      const thing = things[first + n];
      if (first + n < 0 || thing === undefined) return [];
      return [{ mark: 'group', ...at(n), marks: [...draw(thing, place), ...(cut ? corners(place) : [])] }];
    });
    return { ...PAPERS[paper], marks: marks.flat() };
  });
}

const CORNER = 2.5;

function corners({ width, height }: Place): Mark[] {
  const lines = [
    [0, 0, 1, 1],
    [width, 0, -1, 1],
    [0, height, 1, -1],
    [width, height, -1, -1],
  ].map(([x, y, right, below]) => `M${x} ${y! + below! * CORNER}V${y}H${x! + right! * CORNER}`);
  return [{ mark: 'path', d: lines.join(''), pen: { width: 0.15, shade: 0.4 } }];
}
