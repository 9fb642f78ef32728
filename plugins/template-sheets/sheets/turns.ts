/** Turns of a piece that are worth trying on paper. */
import type { Piece, Point } from '../piece.ts';
import { boxOf, heightOf, widthOf } from '../shape/measure.ts';
import { both, pieceMoved, pointsMoved, shift, turn } from '../shape/move.ts';

/** The piece turned, its box's upper left at the origin. */
export function turned(piece: Piece, degrees: number): Piece {
  const turning = turn(degrees);
  const box = boxOf(pointsMoved(piece.outline, turning));
  return pieceMoved(piece, both(turning, shift(-box.left, -box.top)));
}

const cross = (o: Point, a: Point, b: Point): number =>
  (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);

/** Andrew's monotone chain. */
function hull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: readonly Point[]): Point[] => {
    const chain: Point[] = [];
    for (const point of list) {
      while (chain.length >= 2 && cross(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

/** The least box of a shape lies along a side of its hull (Freeman and Shapira 1975); degrees of that turn. */
function leastBoxTurn(outline: readonly Point[]): number {
  const round = hull(outline);
  let best = { area: Number.POSITIVE_INFINITY, degrees: 0 };
  const step = Math.max(1, Math.floor(round.length / 180));
  for (let at = 0; at < round.length; at += step) {
    const [a, b] = [round[at]!, round[(at + 1) % round.length]!];
    const degrees = (-Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
    const box = boxOf(pointsMoved(round, turn(degrees)));
    const area = widthOf(box) * heightOf(box);
    if (area < best.area * (1 - 1e-6)) best = { area, degrees };
  }
  return best.degrees;
}

/** As it is, on its side, and in its least box; each also upside down where that can help to nest. */
export function turnsOf(piece: Piece, upsideDown: boolean): Piece[] {
  const least = leastBoxTurn(piece.outline);
  const quarters = upsideDown ? [0, 90, 180, 270] : [0, 90];
  const slanted = Math.abs(least % 90) < 1e-6 ? [] : [least, least + 90];
  return [...quarters, ...slanted].map((degrees) => turned(piece, degrees));
}
