/** Pieces turned, moved and resized. */
import type { Piece, Point } from '../piece.ts';

/** x' = a x + c y + e, y' = b x + d y + f: the order in which SVG writes a matrix. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const STAY: Matrix = [1, 0, 0, 1, 0, 0];

export const applied = ([a, b, c, d, e, f]: Matrix, [x, y]: Point): Point => [
  a * x + c * y + e,
  b * x + d * y + f,
];

/** `first`, then `second`. */
export const both = (first: Matrix, second: Matrix): Matrix => {
  const [a, b, c, d, e, f] = second;
  return [
    a * first[0] + c * first[1],
    b * first[0] + d * first[1],
    a * first[2] + c * first[3],
    b * first[2] + d * first[3],
    a * first[4] + c * first[5] + e,
    b * first[4] + d * first[5] + f,
  ];
};

export const shift = (x: number, y: number): Matrix => [1, 0, 0, 1, x, y];
export const resize = (by: number): Matrix => [by, 0, 0, by, 0, 0];

/** Turned about the origin; quarter turns are exact. */
export function turn(degrees: number): Matrix {
  const quarter = ((degrees % 360) + 360) % 360;
  const exact = { 0: [1, 0], 90: [0, 1], 180: [-1, 0], 270: [0, -1] }[quarter];
  const [cos, sin] = exact ?? [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return [cos!, sin!, -sin!, cos!, 0, 0];
}

export const pointsMoved = (points: readonly Point[], matrix: Matrix): Point[] =>
  points.map((point) => applied(matrix, point));

/** The piece elsewhere; its edges keep their lengths, so the matrix must not stretch it. */
export const pieceMoved = (piece: Piece, matrix: Matrix): Piece => ({
  ...piece,
  outline: pointsMoved(piece.outline, matrix),
  holes: piece.holes.map((hole) => pointsMoved(hole, matrix)),
  lines: piece.lines.map((line) => ({ ...line, points: pointsMoved(line.points, matrix) })),
  edges: piece.edges.map((edge) => ({ ...edge, along: pointsMoved(edge.along, matrix) })),
  ...(piece.within ? { within: piece.within.map((size) => pieceMoved(size, matrix)) } : {}),
});

/** The piece larger or smaller, its edges with it. */
export function pieceResized(piece: Piece, by: number): Piece {
  const moved = pieceMoved(piece, resize(by));
  const edges = moved.edges.map((edge) => ({
    ...edge,
    length: edge.length * by,
    ...(edge.joins ? { joins: { ...edge.joins, length: edge.joins.length * by } } : {}),
  }));
  return { ...moved, edges };
}
