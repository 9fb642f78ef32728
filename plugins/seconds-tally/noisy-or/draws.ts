/** Many draws, and what they come to. */
import { emStep, startAt } from './em.ts';
import { type Sweep, sampler } from './gibbs.ts';
import type { Model } from './model.ts';

export const SEED = 20_260_101;

/** Draws that are kept, and those that are let go first. */
const KEPT = 1_500;
const LEAST_KEPT = 150;
/** Rounds of EM to begin from; no chance is put asleep by them. */
const ROUNDS = 40;
const AWAKE = 0.005;
/** Chances and strikes that all sweeps together may draw: about a second's work. */
const WORK = 1_800_000;

export interface Draws {
  readonly chance: readonly Float64Array[];
  readonly laid: readonly Float64Array[];
  /** Mean money lost by cause. */
  readonly lost: Float64Array;
}

/** A large record is drawn less often: its answer is sharper, and the time stays bounded. */
export function drawsFor({ causes, patterns }: Model): number {
  const each = causes.length + patterns.reduce((sum, { suspects }) => sum + suspects.length, 0);
  return Math.max(LEAST_KEPT, Math.min(KEPT, Math.floor(WORK / Math.max(1, each))));
}

/** The same model and seed give the same draws. */
export function drawAll(model: Model, seed = SEED, kept = drawsFor(model)): Draws {
  let start = startAt(model);
  for (let round = 0; round < ROUNDS; round++) start = emStep(model, start);
  start = { ...start, chances: start.chances.map((chance) => Math.max(AWAKE, chance)) };
  const { sweep } = sampler(model, start, seed);
  for (let n = 0; n < kept / 5; n++) sweep();
  const draws: Sweep[] = [];
  const lost = new Float64Array(model.causes.length);
  for (let n = 0; n < kept; n++) {
    const drawn = sweep();
    draws.push({ ...drawn, chance: drawn.chance.slice(), laid: drawn.laid.slice() });
    for (const [at, amount] of drawn.lost.entries()) lost[at]! += amount / kept;
  }
  return { chance: draws.map((it) => it.chance), laid: draws.map((it) => it.laid), lost };
}

export interface Spread {
  readonly mean: number;
  /** 5 % of the draws lie below, 5 % above. */
  readonly low: number;
  readonly high: number;
}

export function spread(values: readonly number[]): Spread {
  const sorted = Float64Array.from(values).sort();
  const at = (share: number): number => {
    const place = share * (sorted.length - 1);
    const below = sorted[Math.floor(place)]!;
    return below + (place % 1) * (sorted[Math.ceil(place)]! - below);
  };
  return { mean: sorted.reduce((sum, x) => sum + x, 0) / sorted.length, low: at(0.05), high: at(0.95) };
}

/** For each of the causes the share of draws in which its value is the largest; those level share. Nothing is never the largest. */
export function chanceLargest(draws: readonly Float64Array[], among: readonly number[]): Map<number, number> {
  const chances = new Map(among.map((n) => [n, 0]));
  for (const draw of draws) {
    const largest = Math.max(...among.map((n) => draw[n]!));
    if (largest <= 0) continue;
    const level = among.filter((n) => draw[n] === largest);
    for (const n of level) chances.set(n, chances.get(n)! + 1 / level.length / draws.length);
  }
  return chances;
}
