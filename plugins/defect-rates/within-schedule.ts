/** Is it the glaze or the firing? The glaze beside other ware of the same schedule and clay. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { keeping } from '../../server/contract/reports/keeping.ts';
import { period } from '../../server/contract/reports/period.ts';
import { listed, plural } from '../../server/contract/reports/words.ts';
import { FEW_FIRINGS } from '../../server/contract/statistics/cluster.ts';
import { type Fourfold, fisher } from '../../server/contract/statistics/fisher.ts';
import { type CommonOdds, mantelHaenszel } from '../../server/contract/statistics/mantel-haenszel.ts';
import { wilson } from '../../server/contract/statistics/wilson.ts';
import { clusterTests, drawnOdds } from './adjusted.ts';
import { type Asked, linkTo, material, outcome, outcomeName, role } from './asked.ts';
import type { Names } from './kinds.ts';
import { type FactorOdds, type Regressed, regressed } from './regression.ts';
import { gathered, type Share, sharesOf, summed } from './strata.ts';
import { namesOf } from './sums.ts';
import { type Believed, verdictOf } from './verdict.ts';
import { chanceSaid } from './wording.ts';

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

interface Reckoned {
  readonly strata: ReadonlyMap<string, Fourfold>;
  readonly common: CommonOdds;
  readonly drawn: Believed | undefined;
  /** p with pieces of one firing taken as alike: of each stratum, and of all under ''. */
  readonly tests: ReadonlyMap<string, number | null>;
  readonly whole: Fourfold;
  readonly model: Regressed | undefined;
  readonly firings: number;
}

function reckoned(shares: readonly Share[], of: Input, names: Names): Reckoned {
  const by = (it: Share) => `${it.clay}|${of.role === 'bisque' ? it.bisque : it.schedule}`;
  const strata = gathered(shares, by);
  const common = mantelHaenszel([...strata.values()]);
  const drawn = common.informative > 0 ? drawnOdds(shares, [...strata.keys()], by) : undefined;
  const firings = new Set(shares.filter((it) => it.a + it.b > 0).map((it) => it.firing)).size;
  return {
    ...{ strata, common, drawn, firings },
    tests: clusterTests(shares, by),
    whole: summed(shares),
    model: regressed(shares, names.glaze_names(of.glaze), names),
  };
}

function stratumRow(key: string, table: Fourfold, of: Input, names: Names, clusterP: number | null) {
  const [clay, schedule] = key.split('|') as [string, string];
  const { a, b, c, d } = table;
  const fisherP = a + b > 0 && c + d > 0 ? fisher(table).p : null;
  const mine = wilson({ affected: a, pieces: a + b });
  const rest = wilson({ affected: c, pieces: c + d });
  const scheduleName = schedule ? names.schedule_names(schedule) : 'schedule not noted';
  const clayName = clay ? names.clay_names(clay) : 'clay not noted';
  const pieces = (more: Record<string, string>) =>
    linkTo('pieces', of as Asked, {
      clay: clay || '-',
      [of.role === 'bisque' ? 'bisque' : 'schedule']: schedule || '-',
      ...more,
    });
  const glazed = { by: 'glaze', key: of.glaze };
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
    clusterP,
    pSaid: chanceSaid(fisherP),
    clusterPSaid: chanceSaid(clusterP),
    keyBehind: pieces(glazed),
    piecesBehind: pieces(glazed),
    affectedBehind: pieces({ ...glazed, affected: 'yes' }),
    restPiecesBehind: pieces({ without: of.glaze }),
    restAffectedBehind: pieces({ without: of.glaze, affected: 'yes' }),
  };
}

const factorRow = ({ factor, level, reference, odds, low, high }: FactorOdds) => ({
  kind: 'factor',
  key: level,
  label: level,
  factor,
  reference,
  odds,
  low: finite(low),
  high: finite(high),
});

async function run(ask: Ask, of: Input): Promise<Answered> {
  const [shares, names] = await Promise.all([sharesOf(ask, of as Asked, of.glaze), namesOf(ask)]);
  const glaze = names.glaze_names(of.glaze);
  const base = { from: of.from ?? null, to: of.to ?? null };
  const it = reckoned(shares, of, names);
  const { a, b } = it.whole;
  if (a + b === 0)
    return {
      ...base,
      sentence: `No inspected pieces with ${glaze} in this time.`,
      rows: [],
      notes: [],
      figures: [],
    };
  const rows = [...it.strata]
    .filter(([, table]) => table.a + table.b > 0)
    .map(([key, table]) => stratumRow(key, table, of, names, it.tests.get(key) ?? null))
    .toSorted((x, y) => y.pieces - x.pieces || x.key.localeCompare(y.key));
  const { whole, common, firings, model } = it;
  const believed = widest(common, it.drawn);
  const summary = summaryOf(glaze, it);
  return {
    ...base,
    sentence: verdictOf({
      ...{ glaze, whole, common, believed, firings, rows },
      role: of.role,
      outcome: outcomeName(of.outcome),
    }),
    rows: [
      { kind: 'adjusted', key: 'All together', ...summary },
      ...rows,
      ...(model && 'odds' in model ? model.odds.map(factorRow) : []),
    ],
    more: summary,
    notes: notes(glaze, it, rows),
    figures: figuresOf(glaze),
  };
}

function summaryOf(glaze: string, { common, drawn, whole, tests, model, firings }: Reckoned) {
  const { a, b, c, d } = whole;
  const told = model && 'odds' in model ? model.odds[0] : undefined;
  return {
    glaze,
    oddsRatio: finite(common.oddsRatio),
    oddsLow: finite(common.low),
    oddsHigh: finite(common.high),
    drawnLow: drawn?.low ?? null,
    drawnHigh: drawn?.high ?? null,
    fisherP: c + d > 0 ? fisher(whole).p : null,
    clusterP: tests.get('') ?? null,
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
}

function notes(
  glaze: string,
  { firings, model, whole }: Reckoned,
  rows: readonly ReturnType<typeof stratumRow>[],
): string[] {
  const alone = rows.filter((row) => row.restPieces === 0).map((row) => row.key);
  const told = model && 'odds' in model ? model : undefined;
  return [
    'The odds in the sentence are those of the glaze over those of other ware of the same clay and schedule (Mantel-Haenszel). Their limits are reckoned twice, with every piece as its own (Robins, Breslow and Greenland) and over draws of whole firings; the wider ones are said.',
    firings < FEW_FIRINGS && `Few firings (${firings}) with ${glaze}.`,
    alone.length > 0 && `Nothing to compare with in ${listed(alone)}: left out of the odds.`,
    model && 'refused' in model && `No odds with all factors at once. ${model.refused}`,
    told &&
      'All at once: what each clay and schedule, and the glaze, does to the odds with the others alike (Firth’s penalised regression, profile limits), every piece as its own.',
    ...(told?.left ?? []),
    `${plural(whole.c + whole.d, 'piece')} of other ware.`,
  ].filter((note) => typeof note === 'string');
}

const figuresOf = (glaze: string): Answered['figures'] => [
  {
    figure: 'ranking',
    title: `${glaze} within each schedule and clay`,
    only: 'stratum',
    label: 'key',
    estimate: { field: 'rate', label: 'Rate', kind: 'rate', behind: 'affectedBehind' },
    low: 'low',
    high: 'high',
    pieces: 'pieces',
  },
  {
    figure: 'table',
    title: `${glaze} and the rest`,
    only: 'stratum',
    columns: [
      { field: 'key', label: 'Schedule and clay', kind: 'text', behind: 'keyBehind' },
      { field: 'affected', label: 'Affected', kind: 'count', behind: 'affectedBehind', wide: true },
      { field: 'pieces', label: 'Pieces', kind: 'count', behind: 'piecesBehind', wide: true },
      { field: 'rate', label: 'Rate', kind: 'rate', behind: 'affectedBehind' },
      {
        field: 'restAffected',
        label: 'Others affected',
        kind: 'count',
        behind: 'restAffectedBehind',
        wide: true,
      },
      { field: 'restPieces', label: 'Other pieces', kind: 'count', behind: 'restPiecesBehind', wide: true },
      { field: 'restRate', label: 'Rate of others', kind: 'rate', behind: 'restAffectedBehind' },
      { field: 'pSaid', label: 'p', kind: 'text', wide: true },
      { field: 'clusterPSaid', label: 'p by firings', kind: 'text', wide: true },
    ],
  },
  {
    figure: 'table',
    title: 'All at once: times the odds',
    only: 'factor',
    columns: [
      { field: 'label', label: 'With', kind: 'text' },
      { field: 'factor', label: 'Kind', kind: 'text', wide: true },
      { field: 'reference', label: 'Against', kind: 'text', wide: true },
      { field: 'odds', label: 'Odds', kind: 'number' },
      { field: 'low', label: 'from', kind: 'number' },
      { field: 'high', label: 'to', kind: 'number' },
    ],
  },
];

export const glazeWithinSchedule = report({
  title: 'Is it the glaze or the firing?',
  input,
  run: keeping('glaze-within-schedule', run),
});
