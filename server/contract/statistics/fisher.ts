import hypergeometric from '@stdlib/stats-base-dists-hypergeometric-pmf';

/** A fourfold table: affected and sound in the group, affected and sound in the rest. */
export interface Fourfold {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

/** Tables whose probability is the observed one's up to rounding count as equally likely (as R's fisher.test). */
const SAME = 1 + 1e-7;
/** A term so much smaller than the largest adds nothing that a double can hold. */
const NOTHING = 1e-30;

/** Probability of each possible `a` given the margins, from the first to the last that weighs anything. */
function probabilities({ a, b, c, d }: Fourfold): { first: number; p: number[] } {
  const [affected, group, all] = [a + c, a + b, a + b + c + d];
  const least = Math.max(0, affected + group - all);
  const most = Math.min(affected, group);
  const mode = Math.min(most, Math.max(least, Math.floor(((affected + 1) * (group + 1)) / (all + 2))));
  const top = hypergeometric(mode, all, affected, group);
  const below: number[] = [];
  const above: number[] = [top];
  for (let k = mode, p = top; k > least && p > top * NOTHING; k--) {
    p *= (k * (all - affected - group + k)) / ((affected - k + 1) * (group - k + 1));
    below.push(p);
  }
  for (let k = mode, p = top; k < most && p > top * NOTHING; k++) {
    p *= ((affected - k) * (group - k)) / ((k + 1) * (all - affected - group + k + 1));
    above.push(p);
  }
  return { first: mode - below.length, p: [...below.reverse(), ...above] };
}

export interface FisherTest {
  /** Two-sided: all tables that are no likelier than the one seen. */
  readonly p: number;
  /** One-sided: as many affected in the group as seen, or more; and as few, or fewer. */
  readonly greater: number;
  readonly less: number;
}

/**
 * Fisher's exact test of a fourfold table (R. A. Fisher, Statistical Methods for Research Workers,
 * §21.02; A. Agresti, Categorical Data Analysis, 2002, §3.5). Terms follow from their neighbours, so that
 * a table of a million pieces costs a few thousand steps. Takes the pieces as independent.
 */
export function fisher(table: Fourfold): FisherTest {
  const { first, p } = probabilities(table);
  const at = table.a - first;
  const seen = p[at] ?? 0;
  const sum = (take: (likely: number, k: number) => boolean) =>
    Math.min(
      1,
      p.reduce((total, likely, k) => (take(likely, k) ? total + likely : total), 0),
    );
  return {
    p: sum((likely) => likely <= seen * SAME),
    greater: sum((_, k) => k >= at),
    less: sum((_, k) => k <= at),
  };
}

/**
 * Odds ratio by conditional maximum likelihood: the one under which the expected count of the
 * noncentral hypergeometric distribution is the count seen. 0 or Infinity at the ends.
 */
export function conditionalOddsRatio(table: Fourfold): number {
  const { a, b, c, d } = table;
  if (a === 0 || d === 0) return 0;
  if (b === 0 || c === 0) return Number.POSITIVE_INFINITY;
  const { first, p } = probabilities(table);
  const expected = (logOdds: number): number => {
    const logs = p.map((likely, k) => Math.log(likely) + (first + k) * logOdds);
    const top = Math.max(...logs);
    let weight = 0;
    let sum = 0;
    for (const [k, log] of logs.entries()) {
      const w = Math.exp(log - top);
      weight += w;
      sum += w * (first + k);
    }
    return sum / weight;
  };
  let [low, high] = [-30, 30];
  for (let step = 0; step < 100; step++) {
    const middle = (low + high) / 2;
    if (expected(middle) < a) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}
