/** What of known size lies in a picture, as it is chosen; and the points that are marked for it. Pure. */
import type { Point } from '../../plugins/template-sheets/piece.ts';
import type { Known } from '../../plugins/template-sheets/scan/read-scan.ts';
import { PAPERS } from '../../plugins/template-sheets/sheets/paper.ts';

export type Reference = 'A4' | 'A4 on its side' | 'Letter' | 'Letter on its side' | 'sheet' | 'points';

export interface KnownDraft {
  readonly reference: Reference;
  /** Of another sheet, mm. */
  readonly width: string;
  readonly height: string;
  /** Between two points, mm. */
  readonly length: string;
}

export const firstKnown: KnownDraft = { reference: 'A4', width: '148', height: '210', length: '200' };

export interface Spot {
  readonly at: Point;
  /** Brought to its place by hand. */
  readonly placed: boolean;
}

export const isTwo = ({ reference }: KnownDraft): boolean => reference === 'points';

/** Where marks wait: in the order around the sheet from its upper left. */
export function waiting(two: boolean, width: number, height: number): Spot[] {
  const shares: readonly Point[] = two
    ? [
        [0.25, 0.5],
        [0.75, 0.5],
      ]
    : [
        [0.25, 0.25],
        [0.75, 0.25],
        [0.75, 0.75],
        [0.25, 0.75],
      ];
  return shares.map(([x, y]) => ({ at: [x * width, y * height], placed: false }));
}

/** The spot moved to a place within the picture; half pixels are kept. */
export function movedTo(
  spots: readonly Spot[],
  nth: number,
  [x, y]: Point,
  width: number,
  height: number,
): Spot[] {
  const within = (value: number, most: number) => Math.min(most, Math.max(0, value));
  const at: Point = [within(x, width), within(y, height)];
  return spots.map((spot, each) => (each === nth ? { at, placed: true } : spot));
}

/** @throws never: sizes that cannot be are said by the tracing */
export function knownOf({ reference, width, height, length }: KnownDraft, spots: readonly Spot[]): Known {
  const marks = spots.map(({ at }) => at);
  if (reference === 'points') return { points: marks as [Point, Point], length: Number(length) };
  return { corners: marks as [Point, Point, Point, Point], ...sheetOf(reference, { width, height }) };
}

function sheetOf(reference: Exclude<Reference, 'points'>, own: { width: string; height: string }) {
  if (reference === 'sheet') return { width: Number(own.width), height: Number(own.height) };
  const { width, height } = PAPERS[reference.startsWith('A4') ? 'A4' : 'Letter'];
  return reference.endsWith('side') ? { width: height, height: width } : { width, height };
}
