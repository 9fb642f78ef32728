/** The sizes of a set drawn inside one another, as far as each lies clear within the next larger. */
import type { Piece, Point } from '../piece.ts';
import { inside, toOutline } from '../shape/inside.ts';
import { areaOf, boxOf } from '../shape/measure.ts';
import { pieceMoved, shift } from '../shape/move.ts';

/** mm between the lines of two sizes, so that an eye and a knife tell them apart. */
const CLEAR = 2;
/** Places tried to either side of the middle, each way. */
const TRIES = 4;
/** Points that show an outline well enough. */
const ENOUGH = 240;

/** Pieces of one kind, largest first, as one piece with the smaller ones in it; what fits in none stands by itself. */
export function nested(pieces: readonly Piece[]): Piece[] {
  const kinds = new Map<string, Piece[]>();
  for (const piece of pieces) {
    const kind = piece.inSet?.piece ?? piece.name;
    kinds.set(kind, [...(kinds.get(kind) ?? []), piece]);
  }
  return [...kinds.values()].flatMap((sizes) =>
    nestsOf(sizes.sort((a, b) => areaOf(b.outline) - areaOf(a.outline))),
  );
}

/** The pieces of each size by themselves, in the order of the set. */
export function bySize(pieces: readonly Piece[]): Piece[][] {
  const sizes = new Map<string, Piece[]>();
  for (const piece of pieces) {
    const size = piece.inSet?.size ?? '';
    sizes.set(size, [...(sizes.get(size) ?? []), piece]);
  }
  return [...sizes.values()];
}

function nestsOf(sizes: readonly Piece[]): Piece[] {
  const nests: Piece[] = [];
  for (const size of sizes) {
    const at = nests.findIndex((nest) => placedIn(innermost(nest), size) !== undefined);
    const nest = nests[at];
    if (nest === undefined) nests.push(size);
    else nests[at] = { ...nest, within: [...(nest.within ?? []), placedIn(innermost(nest), size)!] };
  }
  return nests;
}

const innermost = (nest: Piece): Piece => nest.within?.at(-1) ?? nest;

/** As near the middle as it lies clear; undefined where it lies clear nowhere. */
function placedIn(larger: Piece, smaller: Piece): Piece | undefined {
  const [around, own] = [boxOf(larger.outline), boxOf(smaller.outline)];
  const spareX = around.right - around.left - (own.right - own.left);
  const spareY = around.bottom - around.top - (own.bottom - own.top);
  if (Math.min(spareX, spareY) < 2 * CLEAR) return undefined;
  const outer = thinned(larger.outline);
  const inner = thinned(smaller.outline);
  for (const [x, y] of SHARES) {
    const to: Point = [around.left + spareX * x - own.left, around.top + spareY * y - own.top];
    const moved = inner.map((point): Point => [point[0] + to[0], point[1] + to[1]]);
    if (clear(outer, moved)) return pieceMoved(smaller, shift(...to));
  }
  return undefined;
}

/** Shares of the spare room to leave at the left and above, the middle first. */
const SHARES: readonly Point[] = Array.from({ length: (2 * TRIES + 1) ** 2 }, (_, at): Point => {
  const [column, row] = [at % (2 * TRIES + 1), Math.floor(at / (2 * TRIES + 1))];
  return [column / (2 * TRIES), row / (2 * TRIES)];
}).sort((a, b) => Math.hypot(a[0] - 0.5, a[1] - 0.5) - Math.hypot(b[0] - 0.5, b[1] - 0.5));

/** Two outlines are nearest to each other at a corner of one of them. */
const clear = (outer: readonly Point[], inner: readonly Point[]): boolean =>
  inner.every((point) => inside(outer, point) && toOutline(outer, point) >= CLEAR) &&
  outer.every((point) => !inside(inner, point) && toOutline(inner, point) >= CLEAR);

const thinned = (outline: readonly Point[]): readonly Point[] => {
  const step = Math.max(1, Math.floor(outline.length / ENOUGH));
  return outline.filter((_, at) => at % step === 0);
};
