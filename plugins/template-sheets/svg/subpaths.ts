/** A shape's separate lines, in mm, still as curves. */
import svgpath from 'svgpath';
import type { Pen, Point } from '../piece.ts';
import { STAY } from '../shape/move.ts';
import { BadPath, MOST_POINTS, pathPoints } from '../shape/path.ts';
import { BadDrawing, called } from './tree.ts';
import type { Shape } from './walk.ts';

export interface DrawnLine {
  /** Path data, mm. */
  readonly path: string;
  /** Rough: for telling what lies in what. */
  readonly points: readonly Point[];
  readonly closed: boolean;
  readonly pen: Pen | undefined;
  readonly name: string | undefined;
}

/** mm: enough to tell what lies in what. */
const ROUGH = 0.05;
/** Decimals of a millimetre. */
const DECIMALS = 4;

export function linesOf(shapes: readonly Shape[]): DrawnLine[] {
  let points = 0;
  return shapes.flatMap((shape) => {
    const lines = split(shape).map((path) => drawn(shape, path));
    points += lines.reduce((sum, line) => sum + line.points.length, 0);
    if (points > MOST_POINTS)
      throw new BadDrawing(
        `The drawing has more than ${MOST_POINTS} points, reached at ${called(shape.element)}.`,
      );
    return lines.filter((line) => line.points.length > 1);
  });
}

function wrong(shape: Shape, cause: unknown): unknown {
  return cause instanceof BadPath
    ? new BadDrawing(`The path of ${called(shape.element)} ${cause.message}.`)
    : cause;
}

/** One path for every line of the shape, moved to where it lies. */
function split(shape: Shape): string[] {
  try {
    // Reads and counts it first, so that what is too long or broken is refused before it is copied.
    pathPoints(shape.path, shape.matrix, 1);
  } catch (cause) {
    throw wrong(shape, cause);
  }
  const moved = svgpath(shape.path)
    .matrix([...shape.matrix])
    .abs()
    .unshort()
    .round(DECIMALS)
    .toString();
  return moved.split(/(?=M)/).filter((part) => part.trim() !== '');
}

function drawn(shape: Shape, path: string): DrawnLine {
  const [first] = pathPoints(path, STAY, ROUGH);
  return {
    path,
    points: first?.points ?? [],
    closed: first?.closed ?? false,
    pen: shape.pen,
    name: shape.name,
  };
}
