/**
 * Draws from the posterior by Gibbs sampling: which causes struck each spoiled piece, given the
 * chances; then the chances, given the strikes, which is a Beta draw each. (Geman and Geman 1984;
 * data augmentation: Tanner and Wong, J. Am. Stat. Assoc. 82 (1987); both from memory.)
 */
import beta from '@stdlib/random-base-beta';
import uniform from '@stdlib/random-base-uniform';
import type { Estimate } from './em.ts';
import type { Model, Pattern, Sign } from './model.ts';
import { likeness, struckOdds } from './odds.ts';
import { BODY } from './priors.ts';

/** One draw, by cause. The arrays are used again by the next sweep. */
export interface Sweep {
  /** The chance of each cause to spoil a piece by itself. */
  readonly chance: Float64Array;
  /** Seconds laid at its door: of each second an equal share for every cause that struck it. */
  readonly laid: Float64Array;
  /** Money likewise, in minor units. */
  readonly lost: Float64Array;
}

/** A chance of nothing at all could never strike again; this one is as good as nothing. */
const LEAST = 1e-12;

/** More pieces than this are halved by a Beta draw instead of being drawn one by one. */
const ONE_BY_ONE = 24;

export function sampler(model: Model, start: Estimate, seed: number): { sweep(): Sweep } {
  const random = uniform.factory(0, 1, { seed });
  const drawBeta = beta.factory({ seed: seed + 1 });
  const { causes, patterns } = model;
  const chance = Float64Array.from(causes, (_, n) => Math.min(0.999, Math.max(LEAST, start.chances[n]!)));
  const laid = new Float64Array(causes.length);
  const lost = new Float64Array(causes.length);
  const isGlaze = Uint8Array.from(causes, ({ kind }) => (kind === 'glaze' ? 1 : 0));
  const strikes = new Float64Array(causes.length);
  const longest = Math.max(0, ...patterns.map(({ suspects }) => suspects.length));
  /** some[i]: the chance that at least one of the suspects from i on strikes. */
  const some = new Float64Array(longest + 1);
  const odds = new Float64Array(longest);
  const kinds = kindsOf(patterns);
  const weighed = new Float64Array(kinds.of.length * causes.length);
  const struck = new Int32Array(longest);
  /** Strikes of all that is no glaze, by the sign of the fault. */
  const signs: Record<Sign, number> = { body: 0, glaze: 0, bare: 0 };
  let body = start.body;

  /**
   * How many of `many` come true. Halving by the median, a Beta draw (Devroye, Non-Uniform Random
   * Variate Generation, 1986, X.4.3, from memory).
   */
  function binomial(many: number, p: number): number {
    let left = many;
    let odds = p;
    let found = 0;
    while (left > ONE_BY_ONE && odds > 0 && odds < 1) {
      const at = (left >> 1) + 1;
      const middle = drawBeta(at, left - at + 1);
      if (middle <= odds) {
        found += at;
        left -= at;
        odds = (odds - middle) / (1 - middle);
      } else {
        left = at - 1;
        odds /= middle;
      }
    }
    if (odds >= 1) return found + left;
    for (; left > 0; left--) if (random() < odds) found++;
    return found;
  }

  /** Shares `many` pieces out among the suspects from `from` on, of which `hits` before them struck. */
  function share(pattern: Pattern, from: number, many: number, hits: number): void {
    if (many === 0) return;
    const { suspects, lostEach, sign } = pattern;
    if (from === suspects.length) {
      for (let hit = 0; hit < hits; hit++) {
        const n = struck[hit]!;
        strikes[n]! += many;
        laid[n]! += many / hits;
        lost[n]! += (many / hits) * lostEach;
        if (isGlaze[n] === 0) signs[sign] += many;
      }
      return;
    }
    const k = binomial(many, hits > 0 ? odds[from]! : odds[from]! / some[from]!);
    share(pattern, from + 1, many - k, hits);
    struck[hits] = suspects[from]!;
    share(pattern, from + 1, k, hits + 1);
  }

  /** The same for a single piece, the commonest by far. */
  function shareOne({ suspects, lostEach, sign }: Pattern): void {
    let hits = 0;
    for (let at = 0; at < suspects.length; at++)
      if (random() < (hits > 0 ? odds[at]! : odds[at]! / some[at]!)) struck[hits++] = suspects[at]!;
    for (let hit = 0; hit < hits; hit++) {
      const n = struck[hit]!;
      strikes[n]! += 1;
      laid[n]! += 1 / hits;
      lost[n]! += lostEach / hits;
      if (isGlaze[n] === 0) signs[sign] += 1;
    }
  }

  /** The odds of every cause for every kind of pattern, once a sweep: there are few kinds and many patterns. */
  function weigh(): void {
    for (const [kind, pattern] of kinds.of.entries()) {
      const like = likeness(pattern, body);
      for (let n = 0; n < causes.length; n++)
        weighed[kind * causes.length + n] = Math.max(
          LEAST,
          struckOdds(chance[n]!, isGlaze[n] === 1 ? 1 : like),
        );
    }
  }

  function strike(): void {
    weigh();
    for (let at = 0; at < patterns.length; at++) {
      const pattern = patterns[at]!;
      const { suspects } = pattern;
      const from = kinds.at[at]! * causes.length;
      some[suspects.length] = 0;
      for (let i = suspects.length - 1; i >= 0; i--) {
        const r = weighed[from + suspects[i]!]!;
        odds[i] = r;
        some[i] = r + (1 - r) * some[i + 1]!;
      }
      if (pattern.count === 1) shareOne(pattern);
      else share(pattern, 0, pattern.count, 0);
    }
  }

  function sweep(): Sweep {
    strikes.fill(0);
    laid.fill(0);
    lost.fill(0);
    signs.body = 0;
    signs.glaze = 0;
    strike();
    for (let n = 0; n < causes.length; n++) {
      const { pieces, prior } = causes[n]!;
      const hits = strikes[n]!;
      chance[n] = Math.max(LEAST, drawBeta(prior.a + hits, prior.b + pieces - hits));
    }
    body = drawBeta(BODY.a + signs.body, BODY.b + signs.glaze);
    return { chance, laid, lost };
  }
  return { sweep };
}

/** Patterns that weigh every cause alike: one of each kind, and which kind each pattern is. */
function kindsOf(patterns: readonly Pattern[]): { of: readonly Pattern[]; at: Int32Array } {
  const found = new Map<string, number>();
  const of: Pattern[] = [];
  const at = Int32Array.from(patterns, (pattern) => {
    const key = `${pattern.sign} ${pattern.share}`;
    const known = found.get(key);
    if (known !== undefined) return known;
    found.set(key, of.length);
    return of.push(pattern) - 1;
  });
  return { of, at };
}
