/**
 * Pieces placed on planes with little waste. What fits a page is never cut in two: it goes where there is room left
 * on a page that is printed anyway, or on a new one. What is larger gets a plane of several pages.
 */
import type { Piece } from '../piece.ts';
import { areaOf, boxOf, heightOf, widthOf } from '../shape/measure.ts';
import { pieceMoved, shift } from '../shape/move.ts';
import { isRoll, LONGEST_ROLL, windowOf } from './paper.ts';
import { CELL, GAP, type Mask, maskOf, Room } from './raster.ts';
import type { Page, Plane } from './sheet.ts';
import { tilesOf, tilesUsed } from './tiles.ts';
import { turned, turnsOf } from './turns.ts';

interface Open {
  readonly columns: number;
  readonly rows: number;
  readonly room: Room;
  readonly placed: Piece[];
  /** Places on pages where a piece is wholly on one page. */
  readonly fields: readonly { left: number; top: number; right: number; bottom: number }[];
}

export function layOut(pieces: readonly Piece[], page: Page): Plane[] {
  const open: Open[] = [];
  const sorted = [...pieces].sort((a, b) => areaOf(b.outline) - areaOf(a.outline));
  const length = isRoll(page.paper) ? rollLength(pieces) : windowOf(page).height;
  const size = { width: windowOf(page).width, height: length };
  for (const piece of sorted) {
    const fitting = turnsOf(piece, true).filter((each) => fits(each, size));
    if (fitting.length === 0) open.push(planeFor(piece, page, size));
    else if (!nest(fitting, open)) {
      open.push(emptyPage(size));
      nest(fitting.slice(0, 1), open.slice(-1));
    }
  }
  return open.map(({ columns, rows, placed }) => ({ columns, rows, placed }));
}

const fits = (piece: Piece, size: { width: number; height: number }): boolean => {
  const box = boxOf(piece.outline);
  return widthOf(box) <= size.width + 1e-9 && heightOf(box) <= size.height + 1e-9;
};

/** Long enough for all pieces one below the other. */
function rollLength(pieces: readonly Piece[]): number {
  const sum = pieces.reduce((before, { outline }) => {
    const box = boxOf(outline);
    return before + Math.hypot(widthOf(box), heightOf(box)) + 2 * GAP;
  }, 0);
  return Math.min(LONGEST_ROLL, sum);
}

const emptyPage = ({ width, height }: { width: number; height: number }): Open => ({
  columns: 1,
  rows: 1,
  room: new Room(width, height),
  placed: [],
  fields: [{ left: 0, top: 0, right: width, bottom: height }],
});

/** Puts the piece, in one of its turns, where it comes highest up on the first plane with room. */
function nest(turns: readonly Piece[], open: readonly Open[]): boolean {
  const masks = turns.map((piece) => ({ piece, mask: maskOf(piece.outline) }));
  for (const plane of open)
    for (const field of plane.fields) {
      let best: { column: number; row: number; piece: Piece; mask: Mask } | undefined;
      for (const { piece, mask } of masks) {
        const found = firstFree(plane.room, mask, field, best?.row);
        if (found && (!best || found.row < best.row)) best = { ...found, piece, mask };
      }
      if (!best) continue;
      plane.room.take(best.mask, best.column, best.row);
      plane.placed.push(pieceMoved(best.piece, shift(best.column * CELL, best.row * CELL)));
      return true;
    }
  return false;
}

function firstFree(room: Room, mask: Mask, field: Open['fields'][number], before = Number.POSITIVE_INFINITY) {
  const lastRow = Math.min(Math.floor((field.bottom - mask.height) / CELL + 1e-9), before - 1);
  const lastColumn = Math.floor((field.right - mask.width) / CELL + 1e-9);
  const from = Math.ceil(field.left / CELL - 1e-9);
  for (let row = Math.ceil(field.top / CELL - 1e-9); row <= lastRow; row++) {
    const column = room.freeFrom(mask, from, lastColumn, row);
    if (column !== undefined) return { row, column };
  }
  return undefined;
}

interface Choice {
  readonly piece: Piece;
  readonly columns: number;
  readonly rows: number;
}

/** The turn and place in which a large piece needs the fewest pages. */
function planeFor(piece: Piece, page: Page, size: { width: number; height: number }): Open {
  const { overlap } = page;
  const choices = turnsOf(piece, false).flatMap((each) => {
    const box = boxOf(each.outline);
    const columns = Math.max(1, Math.ceil((widthOf(box) - overlap) / (size.width - overlap) - 1e-9));
    const rows = Math.max(1, Math.ceil((heightOf(box) - overlap) / (size.height - overlap) - 1e-9));
    const spareX = columns * (size.width - overlap) + overlap - widthOf(box);
    const spareY = rows * (size.height - overlap) + overlap - heightOf(box);
    const tiles = tilesOf(columns, rows, size, overlap);
    const rough = { ...each, outline: thinned(each.outline) };
    return PLACES.map(([x, y]) => ({
      piece: each,
      columns,
      rows,
      move: shift(spareX * x, spareY * y),
      pages: tilesUsed([pieceMoved({ ...rough, lines: [], edges: [] }, shift(spareX * x, spareY * y))], tiles)
        .length,
    }));
  });
  const best = choices.reduce((a, b) => (b.pages < a.pages ? b : a));
  return planeWith({ ...best, piece: pieceMoved(best.piece, best.move) }, size, overlap);
}

/** Shares of the spare room to leave at the left and above: in a corner first, where most is left for other pieces. */
const PLACES = [0, 1, 0.5].flatMap((x) => [0, 1, 0.5].map((y) => [x, y] as const));

/** Enough of an outline to count pages by. */
const thinned = (outline: Piece['outline']): Piece['outline'] =>
  outline.filter((_, at) => at % Math.max(1, Math.floor(outline.length / 100)) === 0);

function planeWith(
  { piece, columns, rows }: Choice,
  size: { width: number; height: number },
  overlap: number,
): Open {
  const room = new Room(columns * (size.width - overlap) + overlap, rows * (size.height - overlap) + overlap);
  const box = boxOf(piece.outline);
  // Cells are a whole grid; the piece lies between them, so it takes the next ones too.
  const column = Math.floor(box.left / CELL);
  const row = Math.floor(box.top / CELL);
  const mask = maskOf(turned(piece, 0).outline);
  for (const [x, y] of [
    [0, 0],
    [1, 0],
    [0, 1],
    [1, 1],
  ] as const)
    room.take(mask, column + x, row + y);
  const fields = tilesUsed([piece], tilesOf(columns, rows, size, overlap)).map((tile) => ({
    left: tile.left + (tile.column > 0 ? overlap : 0),
    top: tile.top + (tile.row > 0 ? overlap : 0),
    right: tile.left + size.width - (tile.column < columns - 1 ? overlap : 0),
    bottom: tile.top + size.height - (tile.row < rows - 1 ? overlap : 0),
  }));
  return { columns, rows, room, placed: [piece], fields };
}
