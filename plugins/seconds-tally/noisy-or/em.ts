/**
 * The likeliest chances, by expectation and maximisation over which causes struck (Dempster, Laird
 * and Rubin, J. R. Stat. Soc. B 39 (1977); for noisy-OR: Vomlel, Int. J. Intell. Syst. 21 (2006);
 * both from memory).
 */
import type { Model } from './model.ts';
import { likeness, struckOdds } from './odds.ts';

/** Where the likeliest chances are looked for. */
export interface Estimate {
  readonly chances: readonly number[];
  /** Of the strikes of all that is no glaze, the share that glazes cannot have done (odds.ts). */
  readonly body: number;
}

/**
 * One round. Expected strikes of cause i on a spoiled piece with suspects S, given that one of S
 * struck: r_i / (1 - prod_S (1 - r_j)), where r is the chance p, weighed by how like that cause the
 * fault is. A cause that is not suspected has not struck.
 */
export function emStep({ causes, patterns }: Model, { chances, body }: Estimate): Estimate {
  const strikes = causes.map(() => 0);
  const signs = { body: 0, glaze: 0, bare: 0 };
  for (const pattern of patterns) {
    const { suspects, count, sign } = pattern;
    const like = likeness(pattern, body);
    const odds = suspects.map((n) => struckOdds(chances[n]!, causes[n]!.kind === 'glaze' ? 1 : like));
    const well = odds.reduce((all, r) => all * (1 - r), 1);
    for (const [at, n] of suspects.entries()) {
      const struck = count * (well < 1 ? odds[at]! / (1 - well) : 1 / suspects.length);
      strikes[n]! += struck;
      if (causes[n]!.kind !== 'glaze') signs[sign] += struck;
    }
  }
  const signed = signs.body + signs.glaze;
  return {
    chances: causes.map(({ pieces, prior: { a, b } }, n) => {
      const chance = (strikes[n]! + a - 1) / (pieces + a + b - 2);
      return Math.min(1, Math.max(0, chance));
    }),
    body: signed > 0 ? signs.body / signed : body,
  };
}

/** Before the first round: a third, unless there is no such fault at all. */
export const startAt = ({ causes, patterns }: Model, chance = 0.1): Estimate => ({
  chances: causes.map(() => chance),
  body: patterns.some(({ sign }) => sign === 'body') ? 1 / 3 : 0,
});

export interface Fit extends Estimate {
  readonly rounds: number;
}

/** Rounds until no chance moves by more than `tolerance`, or `most` rounds. */
export function fitByEm(
  model: Model,
  { start = 0.1, most = 500, tolerance = 1e-6 }: { start?: number; most?: number; tolerance?: number } = {},
): Fit {
  let found = startAt(model, start);
  for (let rounds = 1; rounds <= most; rounds++) {
    const next = emStep(model, found);
    const moved = next.chances.reduce((far, p, n) => Math.max(far, Math.abs(p - found.chances[n]!)), 0);
    found = next;
    if (moved <= tolerance) return { ...found, rounds };
  }
  return { ...found, rounds: most };
}
