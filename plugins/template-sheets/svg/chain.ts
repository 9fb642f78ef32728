/** Outlines that were drawn as loose lines end to end, as drawing programs for machines write them, made whole. */
import svgpath from 'svgpath';
import type { Point } from '../piece.ts';
import { distance } from '../shape/measure.ts';
import type { DrawnLine } from './subpaths.ts';

/** mm between two ends that are meant to meet. */
const MEETS = 0.05;
const MOST_LOOSE = 5_000;

/** The lines, with every ring of loose unnamed ones as one closed line; what makes no ring stays as it is. */
export function chained(lines: readonly DrawnLine[]): readonly DrawnLine[] {
  const loose = lines.filter(({ closed, pen }) => !closed && (pen === undefined || pen === 'cut'));
  if (loose.length === 0 || loose.length > MOST_LOOSE) return lines;
  const used = new Set<DrawnLine>();
  const rings: DrawnLine[] = [];
  for (const line of loose) {
    if (used.has(line)) continue;
    const ring = ringFrom(
      line,
      loose.filter((other) => !used.has(other)),
    );
    if (!ring) continue;
    for (const { line: part } of ring) used.add(part);
    rings.push(whole(ring));
  }
  return [...lines.filter((line) => !used.has(line)), ...rings];
}

interface Link {
  readonly line: DrawnLine;
  readonly backwards: boolean;
}

const startOf = ({ line, backwards }: Link): Point => (backwards ? line.points.at(-1)! : line.points[0]!);
const endOf = ({ line, backwards }: Link): Point => (backwards ? line.points[0]! : line.points.at(-1)!);

function ringFrom(line: DrawnLine, loose: readonly DrawnLine[]): Link[] | undefined {
  const ring: Link[] = [{ line, backwards: false }];
  const left = new Set(loose);
  left.delete(line);
  for (;;) {
    const end = endOf(ring.at(-1)!);
    if (ring.length > 1 && distance(end, startOf(ring[0]!)) <= MEETS) return ring;
    const next = [...left].find(
      ({ points }) => distance(points[0]!, end) <= MEETS || distance(points.at(-1)!, end) <= MEETS,
    );
    if (!next) return undefined;
    left.delete(next);
    ring.push({ line: next, backwards: distance(next.points[0]!, end) > MEETS });
  }
}

/** Curves run backwards lose nothing as fine points. */
function whole(ring: readonly Link[]): DrawnLine {
  const points = ring.flatMap(({ line, backwards }) =>
    (backwards ? [...line.points].reverse() : line.points).slice(0, -1),
  );
  const straight = points.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${x} ${y}`).join('');
  const forwards = ring.every(({ backwards }) => !backwards);
  const curves = ring
    .map(({ line }, at) => (at === 0 ? line.path : line.path.replace(/^M[^A-Z]*/i, '')))
    .join('');
  const path = forwards ? `${curves}Z` : svgpath(`${straight}Z`).round(4).toString();
  return { path, points, closed: true, pen: 'cut', name: ring[0]!.line.name };
}
