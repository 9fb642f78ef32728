/** The arc of an ellipse as SVG writes it: from its two ends to its middle (SVG 2, B.2.4). */
import type { Point } from '../piece.ts';
import { chordsFor } from './arc.ts';

/** @param n rx, ry, turn of the long axis (degrees), large arc, sweep, end x, end y */
export function ellipticArc(from: Point, n: readonly number[], chord: number): Point[] {
  const [givenX = 0, givenY = 0, degrees = 0, large = 0, sweep = 0, x = 0, y = 0] = n;
  let [rx, ry] = [Math.abs(givenX), Math.abs(givenY)];
  if (rx === 0 || ry === 0) return [[x, y]];
  if (from[0] === x && from[1] === y) return [];
  const turn = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [hx, hy] = [(from[0] - x) / 2, (from[1] - y) / 2];
  const [px, py] = [cos * hx + sin * hy, -sin * hx + cos * hy];
  const reach = (px / rx) ** 2 + (py / ry) ** 2;
  if (reach > 1) [rx, ry] = [rx * Math.sqrt(reach), ry * Math.sqrt(reach)];
  const square = (rx * ry) ** 2 / ((rx * py) ** 2 + (ry * px) ** 2) - 1;
  const scale = (large === sweep ? -1 : 1) * Math.sqrt(Math.max(0, square));
  const [cx, cy] = [(scale * rx * py) / ry, (-scale * ry * px) / rx];
  const middle: Point = [cos * cx - sin * cy + (from[0] + x) / 2, sin * cx + cos * cy + (from[1] + y) / 2];
  const start = Math.atan2((py - cy) / ry, (px - cx) / rx);
  const end = Math.atan2((-py - cy) / ry, (-px - cx) / rx);
  let sweepBy = end - start;
  if (sweep && sweepBy < 0) sweepBy += 2 * Math.PI;
  if (!sweep && sweepBy > 0) sweepBy -= 2 * Math.PI;
  const chords = Math.min(20_000, chordsFor(Math.max(rx, ry), sweepBy, 1, chord));
  return Array.from({ length: chords }, (_, at) => {
    if (at === chords - 1) return [x, y] as const;
    const angle = start + (sweepBy * (at + 1)) / chords;
    const [ex, ey] = [rx * Math.cos(angle), ry * Math.sin(angle)];
    return [middle[0] + cos * ex - sin * ey, middle[1] + sin * ex + cos * ey] as const;
  });
}
