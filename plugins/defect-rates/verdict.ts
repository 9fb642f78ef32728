/** Is it the glaze or the firing: the one sentence. */

import { listed, percent } from '../../server/contract/reports/words.ts';
import { FEW_FIRINGS } from '../../server/contract/statistics/cluster.ts';
import type { Fourfold } from '../../server/contract/statistics/fisher.ts';
import type { CommonOdds } from '../../server/contract/statistics/mantel-haenszel.ts';

export interface Believed {
  readonly low: number | null;
  readonly high: number | null;
}

interface Stratum {
  readonly schedule: string;
  readonly pieces: number;
  readonly affected: number;
  readonly restPieces: number;
  readonly restAffected: number;
}

export interface Judged {
  readonly glaze: string;
  readonly outcome: string;
  readonly whole: Fourfold;
  readonly common: CommonOdds;
  readonly believed: Believed;
  readonly firings: number;
  readonly role: 'bisque' | 'glaze';
  readonly rows: readonly Stratum[];
}

/** Under so many pieces on a schedule nothing is said of it. */
const ENOUGH = 10;

const rateOf = (affected: number, pieces: number): number => (pieces > 0 ? affected / pieces : 0);

function bySchedule(rows: readonly Stratum[]): Stratum[] {
  const found = new Map<string, Stratum>();
  for (const row of rows) {
    const before = found.get(row.schedule);
    found.set(row.schedule, {
      schedule: row.schedule,
      pieces: row.pieces + (before?.pieces ?? 0),
      affected: row.affected + (before?.affected ?? 0),
      restPieces: row.restPieces + (before?.restPieces ?? 0),
      restAffected: row.restAffected + (before?.restAffected ?? 0),
    });
  }
  return [...found.values()].toSorted(
    (a, b) => rateOf(b.affected, b.pieces) - rateOf(a.affected, a.pieces) || b.pieces - a.pieces,
  );
}

const times = (value: number): string => (value < 10 ? value.toFixed(1) : value.toFixed(0));

function oddsSaid({ oddsRatio }: CommonOdds, { low, high }: Believed): string {
  const ratio =
    oddsRatio !== undefined && Number.isFinite(oddsRatio) ? `${times(oddsRatio)} times` : 'far above';
  const range =
    low !== null && high !== null
      ? `between ${times(low)} and ${times(high)} is believable`
      : low !== null
        ? `${times(low)} or more is believable`
        : 'their range cannot be told';
  return `its odds are ${ratio} those of other ware of the same schedule and clay; ${range}`;
}

/** Where the schedules part: the worst, and those on which the glaze is no worse than the rest there. */
function parted(rows: readonly Stratum[]): string {
  const [worst, ...others] = bySchedule(rows);
  const rate = (row: Stratum) => rateOf(row.affected, row.pieces);
  const good = others.filter(
    (row) =>
      row.pieces >= ENOUGH &&
      row.restPieces >= ENOUGH &&
      rate(row) < rate(worst!) / 1.5 &&
      rate(row) <= rateOf(row.restAffected, row.restPieces) * 1.25 + 0.01,
  );
  if (!worst) return '';
  if (good.length === 0) return carried(bySchedule(rows));
  return `, but only on ${worst.schedule} (${worst.affected} of ${worst.pieces}); on ${listed(good.map((row) => row.schedule))} it is as good as the rest`;
}

/** Where most of it went through one schedule on which other ware fares no better, that is what it carries. */
function carried(schedules: readonly Stratum[]): string {
  const all = schedules.reduce((sum, { pieces }) => sum + pieces, 0);
  const [main] = schedules.toSorted((x, y) => y.pieces - x.pieces);
  const { schedule, pieces, affected, restPieces, restAffected } = main!;
  const asBad = rateOf(affected, pieces) <= rateOf(restAffected, restPieces) * 1.25 + 0.01;
  if (pieces * 2 <= all || restPieces < ENOUGH || !asBad) return '';
  return `, but ${pieces} of its ${all} pieces were on ${schedule} (${affected} of them), where other ware is as bad (${restAffected} of ${restPieces})`;
}

export function verdictOf(it: Judged): string {
  const { glaze, whole, common, believed, rows } = it;
  const rate = rateOf(whole.a, whole.a + whole.b);
  const rest = rateOf(whole.c, whole.c + whole.d);
  const raw = `${whole.a} of ${whole.a + whole.b}, against ${percent(rest)} % of the rest`;
  if (common.oddsRatio === undefined)
    return `${glaze} (${raw}): within a ${it.role} schedule and clay it was never fired beside anything it can be compared with, so glaze and firing cannot be told apart.`;
  const odds = oddsSaid(common, believed);
  if (it.firings < FEW_FIRINGS)
    return `${glaze} (${raw}) was in ${it.firings === 1 ? 'one firing only' : `few firings (${it.firings})`}: too few to say; ${odds}.`;
  if (believed.low !== null && believed.low > 1)
    return `${glaze} (${raw}) is worse than other ware, the schedule and clay allowed for: ${odds}.`;
  if (believed.high !== null && believed.high < 1)
    return `${glaze} (${raw}) is better than other ware, the schedule and clay allowed for: ${odds}.`;
  if (rate <= rest) return `${glaze} (${raw}) looks no worse than the rest; ${odds}.`;
  const part = parted(rows);
  return `${glaze} looks bad (${raw})${part || ', but not beyond chance once the schedule and clay are allowed for'}; ${odds}.`;
}
