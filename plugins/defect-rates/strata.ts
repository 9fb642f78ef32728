/** A glaze and all other ware, within each clay and schedule. */
import type { Ask } from '../../server/contract/plugin.ts';
import type { Fourfold } from '../../server/contract/statistics/fisher.ts';
import type { Asked } from './asked.ts';
import { firings } from './sums.ts';

/** One firing's pieces of one clay and pair of schedules: with the glaze, and without it. */
export interface Share extends Fourfold {
  readonly clay: string;
  readonly bisque: string;
  readonly schedule: string;
  readonly firing: string;
}

export async function sharesOf(ask: Ask, of: Asked, glaze: string): Promise<Share[]> {
  const [whole, part] = await Promise.all([
    firings(ask, of, { by: 'stratum' }),
    firings(ask, of, { by: 'glaze-stratum', start: `${glaze}|` }),
  ]);
  const glazed = new Map(part.map((it) => [`${it.key} ${it.firing}`, it]));
  return whole.map(({ key, firing, n, y }) => {
    const [clay, bisque, schedule] = key.split('|') as [string, string, string];
    const mine = glazed.get(`${glaze}|${key} ${firing}`);
    const [a, pieces] = [mine?.y ?? 0, mine?.n ?? 0];
    return { clay, bisque, schedule, firing, a, b: pieces - a, c: y - a, d: n - pieces - (y - a) };
  });
}

const NONE: Fourfold = { a: 0, b: 0, c: 0, d: 0 };
export const added = (one: Fourfold, other: Fourfold): Fourfold => ({
  a: one.a + other.a,
  b: one.b + other.b,
  c: one.c + other.c,
  d: one.d + other.d,
});

export const summed = (some: readonly Fourfold[]): Fourfold => some.reduce(added, NONE);

/** Sums of shares by a text made of each. */
export function gathered(shares: readonly Share[], by: (share: Share) => string): Map<string, Fourfold> {
  const found = new Map<string, Fourfold>();
  for (const share of shares) found.set(by(share), added(found.get(by(share)) ?? NONE, share));
  return found;
}

/** One row for each firing: the four counts of each stratum in turn. */
export function firingRows(
  shares: readonly Share[],
  strata: readonly string[],
  by: (share: Share) => string,
) {
  const place = new Map(strata.map((key, n) => [key, 4 * n]));
  const rows = new Map<string, number[]>();
  for (const share of shares) {
    const at = place.get(by(share));
    if (at === undefined) continue;
    const row = rows.get(share.firing) ?? new Array<number>(4 * strata.length).fill(0);
    row[at]! += share.a;
    row[at + 1]! += share.b;
    row[at + 2]! += share.c;
    row[at + 3]! += share.d;
    rows.set(share.firing, row);
  }
  return [...rows.values()];
}
