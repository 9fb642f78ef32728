/** The base of a straight-walled pot, from its plan at a distance from the middle of the wall. */
import type { Piece, Point } from '../piece.ts';
import type { BaseKind, Wall } from '../spec/wall.ts';
import { meeting, piece } from './named-piece.ts';

export interface Plan {
  /** Closed outline that lies `out` mm outside the middle of the wall. */
  readonly outline: (out: number) => Point[];
  readonly perimeter: (out: number) => number;
}

export function planBase({ outline, perimeter }: Plan, kind: BaseKind, wall: Wall): Piece[] {
  if (kind === 'none') return [];
  const out = (kind === 'under' ? 1 : -1) * (wall.thick / 2);
  const around = outline(out);
  const rim = { name: 'rim', length: perimeter(out), along: around, closed: true };
  return [
    piece('base', {
      outline: around,
      lines: kind === 'under' && out > 0 ? [{ pen: 'mark', points: outline(0), closed: true }] : [],
      edges: [meeting(rim, 'base', 'b', perimeter(0))],
    }),
  ];
}
