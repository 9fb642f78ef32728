/**
 * What a fault tells of its cause. A glaze gives faults on its own zone only. All else, from clay to
 * bad luck, can crack a pot or pinhole it anywhere, so that it gives this very fault on this very
 * zone only now and then. Without that the background would be taken as often for a pinhole under
 * one glaze as for all its faults together, and the glaze be blamed too little. Our own, no source.
 */
import type { Pattern } from './model.ts';

/**
 * Chance that a cause that is no glaze, when it strikes, gives a fault of the pattern's sign and
 * zone; 1 for a glaze. `body` is the share of all such strikes that give a fault of which no glaze
 * is suspected; the others fall on the piece's glazes alike. How often no zone is noted is the same
 * whatever the cause, and so falls out.
 */
export function likeness({ sign, share }: Pattern, body: number): number {
  if (sign === 'bare') return 1;
  return sign === 'body' ? body : (1 - body) * share;
}

/** Given a fault like this, the chance that a cause struck, before it is known that one of them did. */
export const struckOdds = (chance: number, like: number): number =>
  (chance * like) / (chance * like + (1 - chance));
