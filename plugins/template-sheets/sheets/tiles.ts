/** The pages of a plane, and which of them anything lies on. */
import type { Piece, Point } from '../piece.ts';
import { clipped, type Window } from '../shape/clip.ts';
import { inside } from '../shape/inside.ts';
import { boxOf } from '../shape/measure.ts';

export interface Tile extends Window {
  readonly column: number;
  readonly row: number;
}

/** All pages of a plane, row by row; neighbours share a strip `overlap` mm wide. */
export function tilesOf(
  columns: number,
  rows: number,
  { width, height }: { readonly width: number; readonly height: number },
  overlap: number,
): Tile[] {
  return Array.from({ length: columns * rows }, (_, at) => {
    const column = at % columns;
    const row = Math.floor(at / columns);
    return { column, row, left: column * (width - overlap), top: row * (height - overlap), width, height };
  });
}

/** Without those that nothing lies on; a page within a large piece is kept, for it holds the others together. */
export const tilesUsed = (placed: readonly Piece[], tiles: readonly Tile[]): Tile[] =>
  tiles.filter((tile) => placed.some((piece) => touches(piece.outline, tile)));

function touches(outline: readonly Point[], tile: Tile): boolean {
  const box = boxOf(outline);
  if (box.right <= tile.left || box.left >= tile.left + tile.width) return false;
  if (box.bottom <= tile.top || box.top >= tile.top + tile.height) return false;
  const middle: Point = [tile.left + tile.width / 2, tile.top + tile.height / 2];
  return clipped(outline, true, tile).length > 0 || inside(outline, middle);
}
