/** Whether a piece's outline crosses itself: such a piece cannot be cut out. */
import type { Piece } from '../piece.ts';
import { firstCrossing } from '../shape/cross.ts';

export function crossing(piece: Piece): string[] {
  return [piece.outline, ...piece.holes].flatMap((outline) => {
    const at = firstCrossing(outline);
    if (!at) return [];
    const place = `${Math.round(at[0])} mm across and ${Math.round(at[1])} mm down`;
    return [`The outline of “${piece.name}” crosses itself near ${place}; it could not be cut out.`];
  });
}
