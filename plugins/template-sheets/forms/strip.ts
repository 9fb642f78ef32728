/** A straight wall that closes on itself, whatever its plan: as long as the plan's outline, as high as the pot. */
import type { Line, Piece } from '../piece.ts';
import type { Seam } from '../spec/wall.ts';
import { straight } from './fan.ts';
import { joined } from './joint.ts';
import { piece, wallEdges } from './named-piece.ts';

/** @param stops mm from the left seam at which the wall turns, each folded or only marked */
export function strip(
  length: number,
  height: number,
  seam: Seam,
  stops: readonly { readonly at: number; readonly pen: Line['pen'] }[],
  based: boolean,
): Piece {
  const flat = straight(length, height);
  const rim = joined(flat, seam);
  const turns = stops.map(
    ({ at, pen }): Line => ({
      pen,
      points: [
        [at, 0],
        [at, height],
      ],
    }),
  );
  return piece('wall', {
    outline: rim.outline,
    lines: [...turns, ...rim.lines],
    edges: wallEdges(flat, length, length, height, based),
  });
}
