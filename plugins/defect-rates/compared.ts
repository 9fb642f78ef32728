/** Two sides of a change: their rates over firings, and the difference drawn again over whole firings. */
import { clusterBootstrap } from '../../server/contract/statistics/bootstrap.ts';
import {
  type Clustered,
  clusterInterval,
  clusterTest,
  pooledDispersion,
} from '../../server/contract/statistics/cluster.ts';
import { wilson } from '../../server/contract/statistics/wilson.ts';
import type { Share } from './sides.ts';

const gather = (some: readonly Share[]): Clustered => ({
  firings: some.length,
  pieces: some.reduce((sum, { n }) => sum + n, 0),
  affected: some.reduce((sum, { y }) => sum + y, 0),
  squares: some.reduce((sum, { n }) => sum + n * n, 0),
  spread: some.reduce((sum, { n, y }) => sum + (y * y) / n, 0),
});

/** Both sides with their intervals, and the test between them: pieces of one firing are taken as alike. */
export function compared(shares: readonly Share[]) {
  const [earlier, later] = [
    gather(shares.filter((it) => !it.later)),
    gather(shares.filter((it) => it.later)),
  ];
  const dispersion = pooledDispersion([earlier, later]);
  const sides = [earlier, later].map((side) => {
    const plain = wilson(side);
    const cluster = clusterInterval(side, dispersion);
    return { ...side, rate: side.affected / side.pieces, plain, cluster, believable: cluster ?? plain };
  });
  const clusterP = clusterTest({ group: later, rest: earlier, shared: sharedIn(shares) }, dispersion) ?? null;
  return { earlier: sides[0]!, later: sides[1]!, clusterP };
}

/** Σ over firings with ware of both sides: pieces of one × pieces of the other. */
function sharedIn(shares: readonly Share[]): number {
  const later = new Map<string, number>();
  for (const it of shares) if (it.later) later.set(it.firing, (later.get(it.firing) ?? 0) + it.n);
  return shares.reduce((sum, it) => sum + (it.later ? 0 : it.n * (later.get(it.firing) ?? 0)), 0);
}

/** The difference over draws of whole firings; one that has ware of both sides is drawn with both. */
export function drawn(shares: readonly Share[]) {
  const firings = new Map<string, number[]>();
  for (const { firing, n, y, later } of shares) {
    const row = firings.get(firing) ?? [0, 0, 0, 0];
    firings.set(firing, row);
    const at = later ? 0 : 2;
    row[at]! += n;
    row[at + 1]! += y;
  }
  return clusterBootstrap([...firings.values()], ([n1, y1, n0, y0]) =>
    n1! > 0 && n0! > 0 ? y1! / n1! - y0! / n0! : Number.NaN,
  );
}
