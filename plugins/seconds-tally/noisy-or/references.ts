/** The clay, bisque schedule and glaze schedule that the others are measured against. */
import type { Observation } from './model.ts';

const FACTORS = ['clay', 'bisque', 'schedule'] as const;

/** Share of the pieces that a level must have to be measured against. */
const COMMON = 0.2;
/** Pieces of the average rate that are added to each level before the rates are compared. */
const EVENED = 20;

/**
 * Of each factor the level that spoils least, among those with a fifth of the pieces (the commonest
 * where none has). A cause can only add seconds, so what the best level has is left to the background.
 */
export function referenceLevels(observations: readonly Observation[]): string[] {
  const levels = new Map<string, { pieces: number; seconds: number }>();
  let pieces = 0;
  let seconds = 0;
  for (const { present, suspects, count } of observations) {
    pieces += count;
    seconds += suspects ? count : 0;
    for (const key of present) {
      const level = levels.get(key) ?? { pieces: 0, seconds: 0 };
      level.pieces += count;
      level.seconds += suspects ? count : 0;
      levels.set(key, level);
    }
  }
  const mean = pieces > 0 ? seconds / pieces : 0;
  return FACTORS.flatMap((factor) => {
    const its = [...levels].filter(([key]) => key.startsWith(`${factor}=`));
    const most = Math.max(...its.map(([, level]) => level.pieces));
    const common = its.filter(([, level]) => level.pieces >= Math.min(most, COMMON * pieces));
    const rate = (level: { pieces: number; seconds: number }) =>
      (level.seconds + EVENED * mean) / (level.pieces + EVENED);
    const best = common.toSorted(([x, a], [y, b]) => rate(a) - rate(b) || (x < y ? -1 : 1))[0];
    return best ? [best[0]] : [];
  });
}
