/** SVG path data as points. */
import svgpath from 'svgpath';
import type { Point } from '../piece.ts';
import { CHORD } from './arc.ts';
import { ellipticArc } from './elliptic-arc.ts';
import { distance } from './measure.ts';
import type { Matrix } from './move.ts';

/** More points than any hand or pen needs; a drawing beyond it is refused rather than waited for. */
export const MOST_POINTS = 200_000;

export class BadPath extends Error {}

export interface SubPath {
  readonly points: readonly Point[];
  readonly closed: boolean;
}

/** Counted before the text is taken apart: a command has one letter, and at most seven numbers that stand apart. */
function tooLong(data: string): boolean {
  let [letters, gaps] = [0, 0];
  for (let at = 0; at < data.length; at++) {
    const code = data.charCodeAt(at);
    if (code >= 65) letters++;
    else if (code === 32 || code === 44 || code === 45 || code === 10) gaps++;
  }
  return letters > 2 * MOST_POINTS || gaps > 8 * MOST_POINTS;
}

/**
 * @param data the `d` attribute; units are those of the result after `matrix`
 * @throws BadPath with the rest of a sentence that begins with the path's name
 */
export function pathPoints(data: string, matrix: Matrix, chord = CHORD): SubPath[] {
  if (tooLong(data)) throw new BadPath(`has more than ${MOST_POINTS} points`);
  const path = svgpath(data) as ReturnType<typeof svgpath> & { err?: string; segments: unknown[] };
  if (path.err) throw new BadPath(`cannot be read (${path.err.replace(/^SvgPath: /, '')})`);
  if (path.segments.length > MOST_POINTS) throw new BadPath(`has more than ${MOST_POINTS} points`);
  const parts = new Parts(chord);
  path
    .matrix([...matrix])
    .abs()
    .unshort()
    .iterate(([letter, ...numbers], _, x, y) => {
      parts.take(letter as string, numbers as number[], [x, y]);
    });
  return parts.done();
}

class Parts {
  private readonly parts: { points: Point[]; closed: boolean }[] = [];
  private count = 0;

  constructor(private readonly chord: number) {}

  take(letter: string, n: readonly number[], from: Point): void {
    const at = (k: number): Point => [n[k]!, n[k + 1]!];
    if (letter === 'M') this.parts.push({ points: [at(0)], closed: false });
    else if (letter === 'L') this.to([at(0)], from);
    else if (letter === 'H') this.to([[n[0]!, from[1]]], from);
    else if (letter === 'V') this.to([[from[0], n[0]!]], from);
    else if (letter === 'A') this.to(ellipticArc(from, n, this.chord), from);
    else if (letter === 'C') this.to(cubic(from, at(0), at(2), at(4), this.chord), from);
    else if (letter === 'Q') this.to(quadratic(from, at(0), at(2), this.chord), from);
    else if (letter === 'Z' && this.parts.length > 0) this.parts.at(-1)!.closed = true;
  }

  private to(points: readonly Point[], from: Point): void {
    this.count += points.length;
    if (this.count > MOST_POINTS) throw new BadPath(`has more than ${MOST_POINTS} points`);
    if (!points.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)))
      throw new BadPath('runs out of all measure');
    const part = this.parts.at(-1);
    // After a Z without an M the pen stands where the last part began.
    if (!part || part.closed) this.parts.push({ points: [from, ...points], closed: false });
    else part.points.push(...points);
  }

  done(): SubPath[] {
    return this.parts
      .map(({ points, closed }) => {
        const apart = points.filter((point, at) => at === 0 || distance(points[at - 1]!, point) > 1e-9);
        const meets = apart.length > 2 && distance(apart[0]!, apart.at(-1)!) < 1e-3;
        return { points: meets ? apart.slice(0, -1) : apart, closed: closed || meets };
      })
      .filter(({ points }) => points.length > 1);
  }
}

function quadratic(a: Point, b: Point, c: Point, chord: number): Point[] {
  const towards = (end: Point): Point => [
    end[0] + (2 / 3) * (b[0] - end[0]),
    end[1] + (2 / 3) * (b[1] - end[1]),
  ];
  return cubic(a, towards(a), towards(c), c, chord);
}

/** Chords a cubic needs: n = √(6 M / 8ε) with M its larger second difference (Wang 1984). */
function cubic(a: Point, b: Point, c: Point, d: Point, chord: number): Point[] {
  const bend = (p: Point, q: Point, r: Point): number =>
    Math.hypot(p[0] - 2 * q[0] + r[0], p[1] - 2 * q[1] + r[1]);
  const most = Math.max(bend(a, b, c), bend(b, c, d));
  const chords = Math.min(2_000, Math.max(1, Math.ceil(Math.sqrt((6 * most) / (8 * chord)))));
  return Array.from({ length: chords }, (_, at) => {
    const t = (at + 1) / chords;
    const u = 1 - t;
    const [w0, w1, w2, w3] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
    return [
      w0 * a[0] + w1 * b[0] + w2 * c[0] + w3 * d[0],
      w0 * a[1] + w1 * b[1] + w2 * c[1] + w3 * d[1],
    ] as const;
  });
}
