/** Room on a plane in square cells, so that pieces can nest by their true outlines at little cost. */
import type { Point } from '../piece.ts';
import { boxOf, heightOf, widthOf } from '../shape/measure.ts';

/** mm. */
export const CELL = 2.5;
/** Clear paper between two pieces, mm. */
export const GAP = 4;

/** For each row of cells, the stretches (first and last cell) that the shape and its clear border cover. */
export interface Mask {
  readonly width: number;
  readonly height: number;
  /** Of row `at - border`; stretches are relative to the shape's box and may be negative. */
  readonly rows: readonly (readonly (readonly [number, number])[])[];
  readonly border: number;
}

type Stretch = [number, number];

function merged(stretches: Stretch[]): Stretch[] {
  stretches.sort((a, b) => a[0] - b[0]);
  const out: Stretch[] = [];
  for (const [from, to] of stretches) {
    const last = out.at(-1);
    if (last && from <= last[1] + 1) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  }
  return out;
}

/** Cells that the outline runs through, and those between them along the middle of each row. */
export function maskOf(outline: readonly Point[]): Mask {
  const box = boxOf(outline);
  const rows = Math.max(1, Math.ceil(heightOf(box) / CELL));
  const cover: Stretch[][] = Array.from({ length: rows }, () => []);
  const crossings: number[][] = Array.from({ length: rows }, () => []);
  for (let at = 0; at < outline.length; at++) {
    const a = outline[at]!;
    const b = outline[(at + 1) % outline.length]!;
    const [upper, lower] = a[1] <= b[1] ? [a, b] : [b, a];
    const first = Math.min(rows - 1, Math.floor((upper[1] - box.top) / CELL));
    const last = Math.min(rows - 1, Math.floor((lower[1] - box.top) / CELL));
    const slope = lower[1] === upper[1] ? 0 : (lower[0] - upper[0]) / (lower[1] - upper[1]);
    const xAt = (y: number): number => upper[0] + slope * (y - upper[1]) - box.left;
    for (let row = first; row <= last; row++) {
      const from = Math.max(upper[1], box.top + row * CELL);
      const to = Math.min(lower[1], box.top + (row + 1) * CELL);
      const ends =
        slope === 0 && lower[1] === upper[1] ? [a[0] - box.left, b[0] - box.left] : [xAt(from), xAt(to)];
      cover[row]!.push([Math.floor(Math.min(...ends) / CELL), Math.floor(Math.max(...ends) / CELL)]);
      const middle = box.top + (row + 0.5) * CELL;
      if (upper[1] <= middle && lower[1] > middle) crossings[row]!.push(xAt(middle));
    }
  }
  for (let row = 0; row < rows; row++) {
    const xs = crossings[row]!.sort((p, q) => p - q);
    for (let at = 0; at + 1 < xs.length; at += 2)
      cover[row]!.push([Math.floor(xs[at]! / CELL), Math.floor(xs[at + 1]! / CELL)]);
  }
  return { ...bordered(cover.map(merged)), width: widthOf(box), height: heightOf(box) };
}

/** With clear paper all round. */
function bordered(rows: readonly (readonly Stretch[])[]): Pick<Mask, 'rows' | 'border'> {
  const border = Math.ceil(GAP / CELL);
  const wide = Array.from({ length: rows.length + 2 * border }, (_, at) => {
    const near: Stretch[] = [];
    for (let row = at - 2 * border; row <= at; row++)
      for (const [from, to] of rows[row] ?? []) near.push([from - border, to + border]);
    return merged(near);
  });
  return { rows: wide, border };
}

/** A plane's cells, free or taken. */
export class Room {
  readonly columns: number;
  readonly rows: number;
  /** For each row, how many cells are taken before each column. */
  private readonly taken: Int32Array[];

  constructor(width: number, height: number) {
    this.columns = Math.ceil(width / CELL) + 1;
    this.rows = Math.ceil(height / CELL) + 1;
    this.taken = Array.from({ length: this.rows }, () => new Int32Array(this.columns + 1));
  }

  /**
   * The first column from `column` to `last` in which the mask lies free; undefined where there is none. A cell that is in
   * the way is in the way of every place up to the one that has it behind: those are passed over.
   */
  freeFrom(mask: Mask, column: number, last: number, row: number): number | undefined {
    let at = column;
    while (at <= last) {
      const next = this.past(mask, at, row);
      if (next === at) return at;
      at = next;
    }
    return undefined;
  }

  /** The same column where the mask lies free in it, else the next that may be. */
  private past(mask: Mask, column: number, row: number): number {
    for (let at = 0; at < mask.rows.length; at++) {
      const sums = this.taken[row + at - mask.border];
      if (!sums) continue;
      for (const [from, to] of mask.rows[at]!) {
        const start = Math.max(0, Math.min(this.columns, column + from));
        let end = Math.max(0, Math.min(this.columns, column + to + 1));
        if (sums[end]! === sums[start]!) continue;
        while (sums[end - 1] === sums[end]) end--;
        return end - from;
      }
    }
    return column;
  }

  /** Takes the shape's own cells; its border is left to others' borders. */
  take(mask: Mask, column: number, row: number): void {
    const { border } = mask;
    for (let at = border; at < mask.rows.length - border; at++) {
      const sums = this.taken[row + at - border];
      if (!sums) continue;
      const cells = new Uint8Array(this.columns);
      for (let c = 0; c < this.columns; c++) cells[c] = sums[c + 1]! - sums[c]!;
      for (const [from, to] of mask.rows[at]!)
        for (
          let c = Math.max(0, column + from + border);
          c <= Math.min(this.columns - 1, column + to - border);
          c++
        )
          cells[c] = 1;
      for (let c = 0; c < this.columns; c++) sums[c + 1] = sums[c]! + cells[c]!;
    }
  }
}
