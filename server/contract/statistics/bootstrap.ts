import uniform from '@stdlib/random-base-uniform';
import { CONFIDENCE, type Interval } from './interval.ts';

/** The same draws every time: an answer does not change by being asked for again. */
const SEED = 20_260_101;
export const DRAWS = 1_000;
/** More firings than this are dealt into so many hands, each drawn as one: still independent, and quick. */
const MOST_UNITS = 400;

/**
 * Percentile limits by drawing whole clusters (firings) with replacement: A. C. Davison and
 * D. V. Hinkley, Bootstrap Methods and their Application (1997), §3.8 and §5.3. `clusters` holds one
 * row of sums for each cluster; `statistic` gets the sums over a draw and may answer NaN where it
 * cannot be told (such draws are left out). Undefined under two clusters or where half the draws tell nothing.
 */
export function clusterBootstrap(
  clusters: readonly (readonly number[])[],
  statistic: (sums: readonly number[]) => number,
  { draws = DRAWS, seed = SEED, confidence = CONFIDENCE } = {},
): Interval | undefined {
  if (clusters.length < 2) return undefined;
  const units = clusters.length > MOST_UNITS ? dealt(clusters, uniform.factory(0, 1, { seed })) : clusters;
  const drawn = drawnUnits(units.length, draws, seed);
  const width = units[0]!.length;
  const { from, place, value: part } = withoutZeros(units);
  const sums = new Array<number>(width).fill(0);
  const found: number[] = [];
  for (let draw = 0; draw < draws; draw++) {
    sums.fill(0);
    for (let n = draw * units.length; n < (draw + 1) * units.length; n++) {
      const unit = drawn[n]!;
      for (let at = from[unit]!; at < from[unit + 1]!; at++) sums[place[at]!]! += part[at]!;
    }
    const value = statistic(sums);
    if (!Number.isNaN(value)) found.push(value);
  }
  if (found.length < draws / 2) return undefined;
  found.sort((a, b) => a - b);
  const tail = (1 - confidence) / 2;
  return { low: quantile(found, tail), high: quantile(found, 1 - tail) };
}

/** Lists of draws that are kept: making one takes longer than using it, and they are the same for every question. */
const kept = new Map<string, Uint16Array>();
const MOST_KEPT = 8;

/** `draws` times `units` places, each of 0 to units - 1. */
function drawnUnits(units: number, draws: number, seed: number): Uint16Array {
  const name = `${units} ${draws} ${seed}`;
  let drawn = kept.get(name);
  if (!drawn) {
    const random = uniform.factory(0, 1, { seed });
    drawn = Uint16Array.from({ length: draws * units }, () => Math.floor(random() * units));
  }
  kept.delete(name);
  kept.set(name, drawn);
  if (kept.size > MOST_KEPT) kept.delete(kept.keys().next().value!);
  return drawn;
}

/** The rows end to end, only what is not 0 in them: most firings have ware in few of many strata. */
function withoutZeros(units: readonly (readonly number[])[]) {
  const filled = units.map((unit) => unit.flatMap((value, at) => (value === 0 ? [] : [{ at, value }])));
  const all = filled.flat();
  const from = new Int32Array(units.length + 1);
  for (const [n, row] of filled.entries()) from[n + 1] = from[n]! + row.length;
  return {
    from,
    place: Int32Array.from(all, ({ at }) => at),
    value: Float64Array.from(all, ({ value }) => value),
  };
}

function dealt(clusters: readonly (readonly number[])[], random: () => number): number[][] {
  const units = Array.from({ length: MOST_UNITS }, () => new Array<number>(clusters[0]!.length).fill(0));
  const order = clusters.map((row) => ({ row, at: random() })).sort((a, b) => a.at - b.at);
  for (const [n, { row }] of order.entries())
    for (const [at, value] of row.entries()) units[n % MOST_UNITS]![at]! += value;
  return units;
}

/** The (B + 1)p-th of the ordered draws, between two of them in proportion. */
function quantile(sorted: readonly number[], p: number): number {
  const place = Math.min(sorted.length - 1, Math.max(0, (sorted.length + 1) * p - 1));
  const [below, above] = [sorted[Math.floor(place)]!, sorted[Math.ceil(place)]!];
  if (!Number.isFinite(below) || !Number.isFinite(above)) return Math.abs(place % 1) < 0.5 ? below : above;
  return below === above ? below : below + (above - below) * (place - Math.floor(place));
}
