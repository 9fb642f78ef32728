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

export interface Line {
  readonly what: string;
  readonly ours: number;
  /** Of the bare loop, where there is one. */
  readonly bare?: number;
  readonly peer?: number;
  /** What is aimed at, in words, and whether it was reached. */
  readonly aim?: string;
  readonly reached?: boolean;
}

const whole = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });

export function table(lines: readonly Line[]): string {
  const head =
    '| what | ours, a second | bare loop | ours / bare | peer | ours / peer | aim |\n|---|--:|--:|--:|--:|--:|---|';
  const ratio = (a: number, b: number | undefined) => (b === undefined ? '' : (a / b).toFixed(2));
  const number = (value: number | undefined) => (value === undefined ? '' : whole.format(value));
  const rows = lines.map(({ what, ours, bare, peer, aim, reached }) => {
    const verdict = aim === undefined ? '' : `${aim}: ${reached ? 'reached' : 'NOT reached'}`;
    return `| ${what} | ${number(ours)} | ${number(bare)} | ${ratio(ours, bare)} | ${number(peer)} | ${ratio(ours, peer)} | ${verdict} |`;
  });
  return [head, ...rows].join('\n');
}
