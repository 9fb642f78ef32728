/** Where a polygon crosses itself, found with a grid so that tens of thousands of points take no time. */
import type { Point } from '../piece.ts';
import { boxOf, heightOf, widthOf } from './measure.ts';

/** Cells that stretches of the outline are sorted into: about one for every two stretches. */
function gridFor(polygon: readonly Point[]) {
  const box = boxOf(polygon);
  const across = Math.max(1, Math.min(512, Math.ceil(Math.sqrt(polygon.length / 2))));
  const cell = Math.max(widthOf(box), heightOf(box)) / across || 1;
  const column = (x: number): number => Math.floor((x - box.left) / cell);
  const row = (y: number): number => Math.floor((y - box.top) / cell);
  return { column, row, key: (c: number, r: number): number => r * (across + 2) + c };
}

/** A point where two stretches cross or lie on each other; touching neighbours do not count. */
export function firstCrossing(polygon: readonly Point[]): Point | undefined {
  const many = polygon.length;
  if (many < 4) return undefined;
  const grid = gridFor(polygon);
  const cells = new Map<number, number[]>();
  for (let at = 0; at < many; at++) {
    const a = polygon[at]!;
    const b = polygon[(at + 1) % many]!;
    for (let c = grid.column(Math.min(a[0], b[0])); c <= grid.column(Math.max(a[0], b[0])); c++)
      for (let r = grid.row(Math.min(a[1], b[1])); r <= grid.row(Math.max(a[1], b[1])); r++) {
        const key = grid.key(c, r);
        const here = cells.get(key);
        if (!here) {
          cells.set(key, [at]);
          continue;
        }
        for (const other of here) {
          if (other === (at + 1) % many || at === (other + 1) % many || other === at) continue;
          const found = meet(a, b, polygon[other]!, polygon[(other + 1) % many]!);
          if (found) return found;
        }
        here.push(at);
      }
  }
  return undefined;
}

const side = (a: Point, b: Point, p: Point): number =>
  (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);

/** Where two stretches truly cross (each end of the one on its own side of the other). */
function meet(a: Point, b: Point, c: Point, d: Point): Point | undefined {
  const [sa, sb] = [side(c, d, a), side(c, d, b)];
  const [sc, sd] = [side(a, b, c), side(a, b, d)];
  if (sa * sb >= 0 || sc * sd >= 0) return undefined;
  const share = sa / (sa - sb);
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
}
