/** Which firings are a cause of their own. */
import type { Observation } from './model.ts';

/** Firings that are asked about one by one; so the time to answer stays bounded. */
const MOST = 200;

const firingOf = (present: readonly string[]): string | undefined =>
  present.find((key) => key.startsWith('firing='));

/**
 * Where there are more firings than `most`, only those keep a cause of their own whose seconds are
 * furthest above the average, in standard deviations of the binomial distribution; what happened in
 * the others is laid at the background and the other causes.
 */
export function outstandingFirings(observed: readonly Observation[], most = MOST): readonly Observation[] {
  const firings = new Map<string, { pieces: number; seconds: number }>();
  let pieces = 0;
  let seconds = 0;
  for (const { present, suspects, count } of observed) {
    pieces += count;
    seconds += suspects ? count : 0;
    const firing = firingOf(present);
    if (firing === undefined) continue;
    const its = firings.get(firing) ?? { pieces: 0, seconds: 0 };
    firings.set(firing, its);
    its.pieces += count;
    its.seconds += suspects ? count : 0;
  }
  if (firings.size <= most) return observed;
  const rate = seconds / pieces;
  const above = (its: { pieces: number; seconds: number }) =>
    (its.seconds - rate * its.pieces) / Math.sqrt(its.pieces * rate * (1 - rate) || 1);
  const kept = new Set(
    [...firings]
      .toSorted(([x, a], [y, b]) => above(b) - above(a) || (x < y ? -1 : 1))
      .slice(0, most)
      .map(([firing]) => firing),
  );
  const groups = new Map<string, { it: Observation; count: number; lost: number }>();
  for (const it of observed) {
    const firing = firingOf(it.present);
    const leaves = firing !== undefined && !kept.has(firing);
    const without = (keys: readonly string[]) => (leaves ? keys.filter((key) => key !== firing) : keys);
    const present = without(it.present);
    const suspects = it.suspects && without(it.suspects);
    const key = `${present.join(' ')}|${suspects?.join(' ') ?? '-'}`;
    const group = groups.get(key) ?? {
      it: { present, ...(suspects ? { suspects } : {}), count: 0 },
      count: 0,
      lost: 0,
    };
    groups.set(key, group);
    group.count += it.count;
    group.lost += it.lost ?? 0;
  }
  return [...groups.values()].map(({ it, count, lost }) => ({ ...it, count, lost }));
}
