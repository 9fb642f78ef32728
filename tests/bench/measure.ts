/** Measuring and the table of what was measured. */

/** Things done in a second by `work`, which does `count` of them. */
export async function rate(count: number, work: () => unknown): Promise<number> {
  const start = performance.now();
  await work();
  return (count * 1000) / (performance.now() - start);
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

/** What others did in the same turns: their rate, and the median of ours to theirs, turn by turn. */
export interface Against {
  readonly rate: number;
  readonly ratio: number;
}

export function against(ours: readonly number[], theirs: readonly number[]): Against {
  return { rate: median(theirs), ratio: median(ours.map((value, turn) => value / theirs[turn]!)) };
}

export interface Line {
  readonly what: string;
  /** Medians of all turns, a second. */
  readonly ours: number;
  /** The bare loop, where there is one. */
  readonly bare?: Against;
  readonly peer?: Against;
  /** What is aimed at, in words, and whether it was reached. */
  readonly aim?: string;
  readonly reached?: boolean;
}

const whole = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });

export function table(lines: readonly Line[]): string {
  const head = [
    '| what | ours, a second | bare loop | ours to bare | peer | ours to peer | aim |',
    '|---|--:|--:|--:|--:|--:|---|',
  ];
  const beside = (other: Against | undefined) =>
    other === undefined ? ' | ' : `${whole.format(other.rate)} | ${other.ratio.toFixed(2)}`;
  const rows = lines.map(({ what, ours, bare, peer, aim, reached }) => {
    const verdict = aim === undefined ? '' : `${aim}: ${reached ? 'reached' : 'NOT reached'}`;
    return `| ${what} | ${whole.format(ours)} | ${beside(bare)} | ${beside(peer)} | ${verdict} |`;
  });
  return [...head, ...rows].join('\n');
}

/** The smallest value that is no smaller than the given part of them: 0.75 for the 75th percentile. */
export function percentile(values: readonly number[], part: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(sorted.length * part) - 1)] ?? Number.NaN;
}
