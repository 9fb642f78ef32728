/** Causes that the record never shows apart. */
import type { Observation } from './model.ts';
import type { Kind } from './priors.ts';

/** A group is known by its first member: a glaze, where one is among them. */
const RANK: Readonly<Record<Kind, number>> = {
  glaze: 0,
  bisque: 1,
  schedule: 2,
  clay: 3,
  background: 4,
  firing: 5,
};

const rank = (key: string): number => RANK[key.slice(0, key.indexOf('=')) as Kind];

/**
 * Groups of causes that are present together on every piece, and suspected together whenever one
 * of them is. A single firing stands for itself: its prior holds it down, which is what tells it
 * from a glaze that was in no other firing.
 */
export function mergeAlike(observations: readonly Observation[]): string[][] {
  const marks = new Map<string, string[]>();
  for (const [n, { present, suspects }] of observations.entries())
    for (const key of new Set(present)) {
      const mark = suspects?.includes(key) ? `${n}!` : `${n}`;
      const its = marks.get(key);
      if (its) its.push(mark);
      else marks.set(key, [mark]);
    }
  const alike = new Map<string, string[]>();
  for (const [key, its] of marks) {
    const same = key.startsWith('firing=') ? key : its.join();
    const group = alike.get(same);
    if (group) group.push(key);
    else alike.set(same, [key]);
  }
  const byName = (x: string, y: string) => rank(x) - rank(y) || (x < y ? -1 : 1);
  return [...alike.values()].map((group) => group.sort(byName)).sort((x, y) => byName(x[0]!, y[0]!));
}
