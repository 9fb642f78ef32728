/** Planes cut into pages: what is drawn on each, how they join, and the map of them all. */
import type { Piece, Point } from '../piece.ts';
import { clipped } from '../shape/clip.ts';
import { roomiest } from '../shape/inside.ts';
import { boxOf } from '../shape/measure.ts';
import { joinsOf, type Numbered, trimsOf } from './joins.ts';
import { isRoll, windowOf } from './paper.ts';
import type { MapOfPlane, Page, Plane, Sheet, SheetLine, SheetText } from './sheet.ts';
import { sizeLabels } from './size-labels.ts';
import { type Tile, tilesOf, tilesUsed } from './tiles.ts';

export interface CutUp {
  readonly page: Page;
  readonly sheets: readonly Sheet[];
  readonly maps: readonly MapOfPlane[];
}

export function cutUp(planes: readonly Plane[], given: Page): CutUp {
  const page = isRoll(given.paper) ? cutOff(planes, given) : given;
  const window = windowOf(page);
  let last = 0;
  const numbered = planes.map((plane) =>
    tilesUsed(plane.placed, tilesOf(plane.columns, plane.rows, window, page.overlap)).map(
      (tile): Numbered => ({ ...tile, page: ++last }),
    ),
  );
  const spots = new Map(
    planes.flatMap(({ placed }, at) =>
      placed.map((piece) => [piece, spotFor(piece, numbered[at]!, page.overlap)]),
    ),
  );
  const spotOf: SpotOf = (piece) => spots.get(piece)!;
  const sheets = planes.flatMap((plane, at) =>
    numbered[at]!.map((tile) =>
      sheetOf({ plane, at, tile, tiles: numbered[at]!, page, pages: last, spotOf }),
    ),
  );
  return { page, sheets, maps: planes.map((plane, at) => mapOf(plane, spotOf, numbered[at]!)) };
}

/** A roll is cut off below the last piece. */
function cutOff(planes: readonly Plane[], page: Page): Page {
  const lowest = Math.max(
    ...planes.flatMap(({ placed }) => placed.map(({ outline }) => boxOf(outline).bottom)),
  );
  const height = Math.ceil(lowest + 2 * page.margin + page.head + page.foot + 1);
  return { ...page, paper: { ...page.paper, height } };
}

/** Where the name of a piece goes: clear of its lines, and of the strips in which pages are joined. */
function spotFor(piece: Piece, tiles: readonly Tile[], overlap: number): Spot {
  const { outline, holes, lines } = innermost(piece);
  const clear = tiles.length > 1 ? overlap + 2 : 0;
  const within = ([x, y]: Point): number =>
    Math.max(
      ...tiles.map(({ left, top, width, height }) =>
        Math.min(x - left, left + width - x, y - top, top + height - y),
      ),
    ) - clear;
  const others = [...holes, ...lines.map(({ points }) => points)];
  const spot = roomiest(outline, others, within);
  // A narrow piece, or one full of lines: its name lies over them rather than nowhere.
  return spot.room >= LETTERS.least ? spot : roomiest(outline, [], within);
}

type SpotOf = (piece: Piece) => Spot;

interface Cut {
  readonly plane: Plane;
  readonly at: number;
  readonly tile: Numbered;
  readonly tiles: readonly Numbered[];
  readonly page: Page;
  readonly pages: number;
  readonly spotOf: SpotOf;
}

function sheetOf({ plane, at, tile, tiles, page, pages, spotOf }: Cut): Sheet {
  const window = windowOf(page);
  const move = ([x, y]: Point): Point => [x - tile.left + window.left, y - tile.top + window.top];
  const lines = plane.placed
    .flatMap((piece) => linesOf(piece, tile))
    .map((line) => ({
      ...line,
      points: line.points.map(move),
    }));
  return {
    page: tile.page,
    pages,
    plane: at,
    ...(plane.size === undefined ? {} : { size: plane.size }),
    column: tile.column,
    row: tile.row,
    window,
    origin: [tile.left, tile.top],
    lines,
    texts: plane.placed
      .flatMap((piece) => textsOf(piece, spotOf(piece), tile, page.overlap))
      .map((text) => ({
        ...text,
        at: move(text.at),
      })),
    labels: plane.placed
      .flatMap((piece) => sizeLabels(piece, tile))
      .map((label) => ({ ...label, at: move(label.at) })),
    joins: joinsOf(tile, tiles, page.overlap).map((join) => ({
      ...join,
      at: move(join.at),
      arrow: join.arrow.map(move),
    })),
    trims: trimsOf(tile, tiles, page.overlap).map((trim) => ({
      ...trim,
      from: move(trim.from),
      to: move(trim.to),
    })),
  };
}

const innermost = (piece: Piece): Piece => piece.within?.at(-1) ?? piece;

/** A piece's lines within the page, and those of the sizes in it. */
const linesOf = (nest: Piece, tile: Tile): SheetLine[] =>
  nest.within
    ? [nest, ...nest.within].flatMap((piece, nth) =>
        linesOfOne(piece, tile).map((line) => ({ ...line, nth })),
      )
    : linesOfOne(nest, tile);

/** Cut lines last, so that they lie on top. */
function linesOfOne(piece: Piece, tile: Tile): SheetLine[] {
  const all = [
    ...piece.lines.map((line) => ({ pen: line.pen, points: line.points, closed: line.closed ?? false })),
    ...[...piece.holes, piece.outline].map((points) => ({ pen: 'cut' as const, points, closed: true })),
  ];
  return all.flatMap(({ pen, points, closed }) =>
    clipped(points, closed, tile).map((part) => ({ pen, ...part })),
  );
}

const LETTERS = { size: 4, least: 2 };

type Spot = ReturnType<typeof roomiest>;

/** The piece's name where it has most room, on the one page that shows that place whole. */
function textsOf(piece: Piece, { at, room }: Spot, tile: Tile, overlap: number): SheetText[] {
  const shown = (low: number, long: number, x: number): boolean => x >= low && x < low + long;
  if (!shown(tile.left, tile.width, at[0]) || !shown(tile.top, tile.height, at[1])) return [];
  // Two pages may show the place: the first of them bears the name.
  if ((tile.column > 0 && at[0] < tile.left + overlap) || (tile.row > 0 && at[1] < tile.top + overlap))
    return [];
  const name = labelOf(piece);
  const words = [piece.count > 1 ? `${name} × ${piece.count}` : name, ...piece.notes];
  const size = Math.max(LETTERS.least, Math.min(LETTERS.size, room / (words.length + 1)));
  return words.map((text, line) => ({
    text,
    at: [at[0], at[1] + (line - (words.length - 1) / 2) * size * 1.4] as Point,
    size: line === 0 ? size : size * 0.75,
    width: 2 * room,
  }));
}

/** 'wall: large, medium, small' of a nest. */
const labelOf = ({ name, inSet, within }: Piece): string =>
  inSet && within
    ? `${inSet.piece}: ${[inSet.size, ...within.map((piece) => piece.inSet!.size)].join(', ')}`
    : name;

function mapOf({ placed }: Plane, spotOf: SpotOf, tiles: readonly Numbered[]): MapOfPlane {
  return {
    width: Math.max(...tiles.map((tile) => tile.left + tile.width)),
    height: Math.max(...tiles.map((tile) => tile.top + tile.height)),
    pieces: placed.map((piece) => ({
      name: labelOf(piece),
      outline: piece.outline,
      middle: spotOf(piece).at,
    })),
    pages: tiles.map(({ page, left, top, width, height }) => ({ page, left, top, width, height })),
  };
}
