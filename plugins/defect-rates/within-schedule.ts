/** Is it the glaze or the firing? The glaze beside other ware of the same schedule and clay. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { keeping } from '../../server/contract/reports/keeping.ts';
import { FEW_FIRINGS } from '../../server/contract/statistics/cluster.ts';
import { type Fourfold, fisher } from '../../server/contract/statistics/fisher.ts';
import { type CommonOdds, mantelHaenszel } from '../../server/contract/statistics/mantel-haenszel.ts';
import { wilson } from '../../server/contract/statistics/wilson.ts';
import { drawnOdds, regressed } from './adjusted.ts';
import { type Asked, material, outcome, outcomeName, period, role } from './asked.ts';
import type { Names } from './kinds.ts';
import { gathered, type Share, sharesOf, summed } from './strata.ts';
import { namesOf } from './sums.ts';
import { type Believed, verdictOf } from './verdict.ts';
import { chanceSaid, listed, plural } from './wording.ts';

const input = z.strictObject({ ...period, ...outcome, ...role, glaze: material });
type Input = z.infer<typeof input>;

const share = (part: number, whole: number): number | null => (whole > 0 ? part / whole : null);
const finite = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;

/** Few firings drawn again and again look more alike than they are, so the wider limit of the two counts. */
function widest(common: CommonOdds, drawn: Believed | undefined): Believed {
  const [low, high] = [finite(common.low), finite(common.high)];
  if (!drawn) return { low, high };
  return {
    low: low === null || drawn.low === null ? null : Math.min(low, drawn.low),
    high: high === null || drawn.high === null ? null : Math.max(high, drawn.high),
  };
}

function stratumRow(key: string, table: Fourfold, names: Names) {
  const [clay, schedule] = key.split('|') as [string, string];
  const { a, b, c, d } = table;
  const fisherP = a + b > 0 && c + d > 0 ? fisher(table).p : null;
  const mine = wilson({ affected: a, pieces: a + b });
  const rest = wilson({ affected: c, pieces: c + d });
  const scheduleName = schedule ? names.schedule_names(schedule) : 'schedule not noted';
  const clayName = clay ? names.clay_names(clay) : 'clay not noted';
  return {
    kind: 'stratum',
    key: `${scheduleName}, ${clayName}`,
    schedule: scheduleName,
    clay: clayName,
    pieces: a + b,
    affected: a,
    rate: share(a, a + b),
    low: mine.low,
    high: mine.high,
    restPieces: c + d,
    restAffected: c,
    restRate: share(c, c + d),
    restLow: rest.low,
    restHigh: rest.high,
    fisherP,
    pSaid: chanceSaid(fisherP),
  };
}

function reckoned(shares: readonly Share[], of: Input, names: Names) {
  const by = (it: Share) => `${it.clay}|${of.role === 'bisque' ? it.bisque : it.schedule}`;
  const strata = gathered(shares, by);
  const common = mantelHaenszel([...strata.values()]);
  const drawn = common.informative > 0 ? drawnOdds(shares, [...strata.keys()], by) : undefined;
  const whole = summed(shares);
  const model = regressed(shares, names.glaze_names(of.glaze), names);
  const firings = new Set(shares.filter((it) => it.a + it.b > 0).map((it) => it.firing)).size;
  return { strata, common, drawn, whole, model, firings };
}

async function run(ask: Ask, of: Input): Promise<Answered> {
  const [shares, names] = await Promise.all([sharesOf(ask, of as Asked, of.glaze), namesOf(ask)]);
  const glaze = names.glaze_names(of.glaze);
  const { strata, common, drawn, whole, model, firings } = reckoned(shares, of, names);
  const { a, b, c, d } = whole;
  const base = { from: of.from ?? null, to: of.to ?? null };
  if (a + b === 0)
    return {
      ...base,
      sentence: `No inspected pieces with ${glaze} in this time.`,
      rows: [],
      notes: [],
      figures: [],
    };
  const rows = [...strata]
    .filter(([, table]) => table.a + table.b > 0)
    .map(([key, table]) => stratumRow(key, table, names))
    .toSorted((x, y) => y.pieces - x.pieces || x.key.localeCompare(y.key));
  const believed = widest(common, drawn);
  const told = model && 'odds' in model ? model : undefined;
  const summary = {
    glaze,
    oddsRatio: finite(common.oddsRatio),
    oddsLow: finite(common.low),
    oddsHigh: finite(common.high),
    drawnLow: drawn?.low ?? null,
    drawnHigh: drawn?.high ?? null,
    fisherP: c + d > 0 ? fisher(whole).p : null,
    modelOdds: told?.odds ?? null,
    modelLow: finite(told?.low),
    modelHigh: finite(told?.high),
    pieces: a + b,
    affected: a,
    rate: share(a, a + b),
    firings,
    restPieces: c + d,
    restAffected: c,
    restRate: share(c, c + d),
  };
  const alone = rows.filter((row) => row.restPieces === 0).map((row) => row.key);
  return {
    ...base,
    sentence: verdictOf({
      glaze,
      whole,
      common,
      believed,
      firings,
      role: of.role,
      rows,
      outcome: outcomeName(of.outcome),
    }),
    rows: [{ kind: 'adjusted', key: 'All together', ...summary }, ...rows],
    more: summary,
    notes: [
      'oddsRatio: the odds of the glaze over those of other ware of the same clay and schedule (Mantel-Haenszel, limits of Robins, Breslow and Greenland), every piece as its own; drawn: the same over draws of whole firings. The sentence uses the wider limits.',
      firings < FEW_FIRINGS && `Few firings (${firings}) with ${glaze}.`,
      alone.length > 0 && `Nothing to compare with in ${listed(alone)}: left out of the odds.`,
      model && 'refused' in model && `No odds with all factors at once. ${model.refused}`,
      told !== undefined &&
        `With clay, bisque schedule and glaze schedule all allowed for at once, the odds are ${told.odds.toFixed(1)} (Firth’s regression, every piece as its own).`,
      `${plural(c + d, 'piece')} of other ware.`,
    ].filter((note) => typeof note === 'string'),
    figures: [
      {
        figure: 'ranking',
        title: `${glaze} within each schedule and clay`,
        only: 'stratum',
        label: 'key',
        estimate: { field: 'rate', label: 'Rate', kind: 'rate' },
        low: 'low',
        high: 'high',
        pieces: 'pieces',
      },
      {
        figure: 'table',
        title: `${glaze} and the rest`,
        only: 'stratum',
        columns: [
          { field: 'key', label: 'Schedule and clay', kind: 'text' },
          { field: 'affected', label: 'Affected', kind: 'count' },
          { field: 'pieces', label: 'Pieces', kind: 'count' },
          { field: 'rate', label: 'Rate', kind: 'rate' },
          { field: 'restAffected', label: 'Others affected', kind: 'count' },
          { field: 'restPieces', label: 'Other pieces', kind: 'count' },
          { field: 'restRate', label: 'Rate of others', kind: 'rate' },
          { field: 'pSaid', label: 'p', kind: 'text', wide: true },
        ],
      },
    ],
  };
}

export const glazeWithinSchedule = report({
  title: 'Is it the glaze or the firing?',
  input,
  run: keeping('glaze-within-schedule', run),
});
