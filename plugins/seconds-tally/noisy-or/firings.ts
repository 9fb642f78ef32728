/** Which firings are a cause of their own. */

/** Firings that are asked about one by one, of so many: so the time to answer stays bounded. */
const mostOf = (firings: number): number => (firings > 1_000 ? 100 : 200);

export interface FiringCount {
  readonly firing: string;
  readonly pieces: number;
  readonly seconds: number;
}

/**
 * Where there are more firings than `most`, only those are a cause of their own whose seconds are
 * furthest above the average, in standard deviations of the binomial distribution; what happened in
 * the others is laid at the background and the other causes. Undefined where all stand for themselves.
 */
export function outstanding(
  firings: readonly FiringCount[],
  most = mostOf(firings.length),
): string[] | undefined {
  if (firings.length <= most) return undefined;
  const sum = (of: (it: FiringCount) => number) => firings.reduce((all, it) => all + of(it), 0);
  const rate = sum((it) => it.seconds) / sum((it) => it.pieces);
  const above = ({ pieces, seconds }: FiringCount) =>
    (seconds - rate * pieces) / Math.sqrt(pieces * rate * (1 - rate) || 1);
  return firings
    .toSorted((x, y) => above(y) - above(x) || (x.firing < y.firing ? -1 : 1))
    .slice(0, most)
    .map(({ firing }) => firing);
}
