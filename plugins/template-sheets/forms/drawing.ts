/** Pieces that were drawn, traced or scanned, as path data in mm. */
import type { Development, Line, Piece, Point } from '../piece.ts';
import { areaOf, boxOf, heightOf, lengthOf, widthOf } from '../shape/measure.ts';
import { STAY } from '../shape/move.ts';
import { BadPath, pathPoints, type SubPath } from '../shape/path.ts';
import { LARGEST, type Of, SMALLEST } from '../spec/spec.ts';
import { CannotBe } from './cannot-be.ts';
import { piece } from './named-piece.ts';

type Drawn = Of<'drawing'>['pieces'][number];

export function drawing(spec: Of<'drawing'>): Development {
  const twice = spec.pieces.find(
    ({ name }, at) => spec.pieces.findIndex((other) => other.name === name) !== at,
  );
  if (twice) throw new CannotBe(`Two pieces are called “${twice.name}”; each needs a name of its own.`);
  const pieces = spec.pieces.map(drawnPiece);
  const area = pieces.reduce(
    (sum, { outline, holes, count }) =>
      sum + count * (areaOf(outline) - holes.reduce((cut, hole) => cut + areaOf(hole), 0)),
    0,
  );
  return { pieces, facts: { area } };
}

function drawnPiece(drawn: Drawn): Piece {
  const outline = closedOnly(drawn, drawn.outline, 'outline');
  sizeIsRight(drawn.name, outline);
  const holes = (drawn.holes ?? []).map((path, at) => closedOnly(drawn, path, `hole ${at + 1}`));
  return piece(drawn.name, {
    count: drawn.count ?? 1,
    outline,
    holes,
    lines: (drawn.lines ?? []).flatMap(({ pen, path }) =>
      read(drawn, path, `${pen} line`).map((part): Line => ({ pen, ...part })),
    ),
    edges: [{ name: 'outline', length: lengthOf(outline, true), along: outline, closed: true }],
  });
}

function read({ name }: Drawn, path: string, part: string): SubPath[] {
  try {
    return pathPoints(path, STAY);
  } catch (cause) {
    if (cause instanceof BadPath) throw new CannotBe(`The ${part} of “${name}” ${cause.message}.`);
    throw cause;
  }
}

function closedOnly(drawn: Drawn, path: string, part: string): readonly Point[] {
  const [only, ...more] = read(drawn, path, part);
  if (!only || more.length > 0 || !only.closed || only.points.length < 3)
    throw new CannotBe(`The ${part} of “${drawn.name}” should be one closed line.`);
  return only.points;
}

function sizeIsRight(name: string, outline: readonly Point[]): void {
  const box = boxOf(outline);
  const [width, height] = [widthOf(box), heightOf(box)];
  if (Math.min(width, height) < SMALLEST || Math.max(width, height) > LARGEST)
    throw new CannotBe(
      `“${name}” is ${shown(width)} by ${shown(height)} mm; a piece should be from ${SMALLEST} to ${LARGEST} mm each way.`,
    );
}

const shown = (mm: number): string => String(Number(mm.toPrecision(3)));
