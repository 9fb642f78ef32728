/**
 * How large a share comes to each of several ends, where one end rules out the others and some have not
 * come to any yet. O. O. Aalen, S. Johansen, Scand. J. Statist. 5 (1978) 141-150: the cumulative
 * incidence of an end grows by S(t-) d/n, S being the share that has come to no end.
 */

export interface Outcome {
  readonly time: number;
  /** Which end; null: last seen then, and still under way. */
  readonly end: string | null;
  readonly count: number;
}

/** The share that has come to each end by the last time seen. */
export function cumulativeIncidence(outcomes: readonly Outcome[]): Readonly<Record<string, number>> {
  const sorted = [...outcomes].sort((a, b) => a.time - b.time);
  let atRisk = sorted.reduce((sum, { count }) => sum + count, 0);
  let none = 1;
  const shares: Record<string, number> = {};
  for (let at = 0; at < sorted.length; ) {
    const { time } = sorted[at]!;
    let ended = 0;
    let seen = 0;
    for (; at < sorted.length && sorted[at]!.time === time; at++) {
      const { end, count } = sorted[at]!;
      seen += count;
      if (end === null) continue;
      ended += count;
      shares[end] = (shares[end] ?? 0) + (none * count) / atRisk;
    }
    none *= 1 - ended / atRisk;
    atRisk -= seen;
  }
  return shares;
}
