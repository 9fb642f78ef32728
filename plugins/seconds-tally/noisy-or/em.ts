/**
 * The likeliest chances, by expectation and maximisation over which causes struck (Dempster, Laird
 * and Rubin, J. R. Stat. Soc. B 39 (1977); for noisy-OR: Vomlel, Int. J. Intell. Syst. 21 (2006);
 * both from memory).
 */
import type { Model } from './model.ts';

/**
 * One round. Expected strikes of cause i on a spoiled piece with suspects S, given that one of S
 * struck: p_i / (1 - prod_S (1 - p_j)). A cause that is not suspected has not struck.
 */
export function emStep({ causes, patterns }: Model, chances: readonly number[]): number[] {
  const strikes = causes.map(() => 0);
  for (const { suspects, count } of patterns) {
    const well = suspects.reduce((all, n) => all * (1 - chances[n]!), 1);
    for (const n of suspects)
      strikes[n]! += count * (well < 1 ? chances[n]! / (1 - well) : 1 / suspects.length);
  }
  return causes.map(({ pieces, prior: { a, b } }, n) => {
    const chance = (strikes[n]! + a - 1) / (pieces + a + b - 2);
    return Math.min(1, Math.max(0, chance));
  });
}

export interface Fit {
  readonly chances: readonly number[];
  readonly rounds: number;
}

/** Rounds until no chance moves by more than `tolerance`, or `most` rounds. */
export function fitByEm(
  model: Model,
  { start = 0.1, most = 500, tolerance = 1e-6 }: { start?: number; most?: number; tolerance?: number } = {},
): Fit {
  let chances: readonly number[] = model.causes.map(() => start);
  for (let rounds = 1; rounds <= most; rounds++) {
    const next = emStep(model, chances);
    const moved = next.reduce((far, chance, n) => Math.max(far, Math.abs(chance - chances[n]!)), 0);
    chances = next;
    if (moved <= tolerance) return { chances, rounds };
  }
  return { chances, rounds: most };
}
