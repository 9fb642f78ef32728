/** Which lines of a drawing are pieces, which are holes in them, and which are drawn on them. */
import type { Pen, Point } from '../piece.ts';
import { inside, toOutline } from '../shape/inside.ts';
import { areaOf } from '../shape/measure.ts';
import type { Of } from '../spec/spec.ts';
import { chained } from './chain.ts';
import type { DrawnLine } from './subpaths.ts';
import { BadDrawing } from './tree.ts';

type DrawnPiece = Of<'drawing'>['pieces'][number];

export interface SortedOut {
  readonly pieces: readonly DrawnPiece[];
  readonly dropped: readonly string[];
}

const MOST_OUTLINES = 2_000;

interface Growing {
  readonly line: DrawnLine;
  readonly holes: string[];
  readonly lines: { pen: Exclude<Pen, 'cut'>; path: string }[];
}

export function sortOut(drawn: readonly DrawnLine[]): SortedOut {
  const lines = chained(drawn);
  const cuts = lines.filter(({ closed, pen }) => closed && (pen === undefined || pen === 'cut'));
  if (cuts.length > MOST_OUTLINES)
    throw new BadDrawing(
      `The drawing has ${cuts.length} closed outlines; it should have at most ${MOST_OUTLINES}.`,
    );
  const pieces = nested(cuts);
  if (pieces.length === 0) throw new BadDrawing('There is no closed outline in the drawing to cut out.');
  const dropped = new Set<string>();
  for (const line of lines) {
    if (cuts.includes(line)) continue;
    const on = pieces.find((piece) => liesOn(piece.line, line));
    if (!on) dropped.add(`A line${line.name ? ` of “${line.name}”` : ''} was left out: it lies on no piece.`);
    else
      on.lines.push({
        pen: line.pen === undefined || line.pen === 'cut' ? 'mark' : line.pen,
        path: line.path,
      });
  }
  return { pieces: named(pieces), dropped: [...dropped].slice(0, 20) };
}

/** Largest first: an outline within a piece is a hole, and one within a hole is a piece again. */
function nested(cuts: readonly DrawnLine[]): Growing[] {
  const bySize = cuts.map((line) => ({ line, area: areaOf(line.points) })).sort((a, b) => b.area - a.area);
  const pieces: Growing[] = [];
  const holes: { line: DrawnLine; of: Growing }[] = [];
  for (const { line } of bySize) {
    const [first] = line.points;
    const around = pieces.findLast((piece) => inside(piece.line.points, first!));
    const hole =
      around && holes.findLast(({ line: other, of }) => of === around && inside(other.points, first!));
    if (!around || hole) pieces.push({ line, holes: [], lines: [] });
    else {
      around.holes.push(line.path);
      holes.push({ line, of: around });
    }
  }
  return pieces;
}

/** Within the outline, or along it. */
function liesOn({ points }: DrawnLine, line: DrawnLine): boolean {
  const middle = line.points[Math.floor(line.points.length / 2)]!;
  const [first] = line.points;
  const between: Point = [(first![0] + middle[0]) / 2, (first![1] + middle[1]) / 2];
  return [between, middle, first!].some((point) => inside(points, point) || toOutline(points, point) < 0.1);
}

/** By their own names where those are given once, else numbered. */
function named(pieces: readonly Growing[]): DrawnPiece[] {
  const taken = new Set<string>();
  return pieces.map(({ line, holes, lines }, at) => {
    const own = line.name?.replaceAll(/\s+/g, ' ').trim().slice(0, 60) || `piece ${at + 1}`;
    let name = own;
    for (let copy = 2; taken.has(name); copy++) name = `${own} ${copy}`;
    taken.add(name);
    return {
      name,
      outline: line.path,
      ...(holes.length > 0 ? { holes } : {}),
      ...(lines.length > 0 ? { lines } : {}),
    };
  });
}
