/** Did the change help? The rate before a day and from that day on, with the difference. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { keeping } from '../../server/contract/reports/keeping.ts';
import { clusterBootstrap } from '../../server/contract/statistics/bootstrap.ts';
import {
  type Clustered,
  clusterInterval,
  differenceOf,
  FEW_FIRINGS,
  pooledDispersion,
} from '../../server/contract/statistics/cluster.ts';
import { fisher } from '../../server/contract/statistics/fisher.ts';
import { newcombe } from '../../server/contract/statistics/newcombe.ts';
import { wilson } from '../../server/contract/statistics/wilson.ts';
import { type Asked, material, outcome, outcomeName, period } from './asked.ts';
import { byFiring } from './sums.ts';
import { capital, percent, saidOf } from './wording.ts';

const FILTERS = ['glaze', 'clay', 'schedule', 'kiln'] as const;

const input = z
  .strictObject({
    ...period,
    ...outcome,
    /** The first day of the new way. */
    date: z.iso.date(),
    glaze: material.optional(),
    clay: material.optional(),
    schedule: material.optional(),
    kiln: material.optional(),
  })
  .refine((of) => FILTERS.filter((filter) => of[filter]).length < 2, {
    message: 'one of glaze, clay, schedule and kiln',
    path: ['glaze'],
  });
type Input = z.infer<typeof input>;

interface Fired {
  readonly day: string;
  readonly n: number;
  readonly y: number;
}

async function firings(ask: Ask, of: Input): Promise<Fired[]> {
  const filter = FILTERS.find((it) => of[it]);
  const { sql, params } = byFiring(of as Asked, filter ?? 'all', { key: filter ? of[filter]! : '' });
  return ask.query<Fired>(`SELECT day, n, y FROM (${sql})`, params);
}

const gather = (some: readonly Fired[]): Clustered => ({
  firings: some.length,
  pieces: some.reduce((sum, { n }) => sum + n, 0),
  affected: some.reduce((sum, { y }) => sum + y, 0),
  squares: some.reduce((sum, { n }) => sum + n * n, 0),
  spread: some.reduce((sum, { n, y }) => sum + (y * y) / n, 0),
});

function compared(all: readonly Fired[], date: string) {
  const isLater = ({ day }: Fired) => day >= date;
  const [earlier, later] = [gather(all.filter((f) => !isLater(f))), gather(all.filter(isLater))];
  const dispersion = pooledDispersion([earlier, later]);
  const sides = [earlier, later].map((side) => {
    const plain = wilson(side);
    const cluster = clusterInterval(side, dispersion);
    return { ...side, rate: side.affected / side.pieces, plain, cluster, believable: cluster ?? plain };
  });
  return { earlier: sides[0]!, later: sides[1]! };
}

/** The difference over draws of whole firings. */
const drawn = (all: readonly Fired[], date: string) =>
  clusterBootstrap(
    all.map(({ day, n, y }) => (day >= date ? [n, y, 0, 0] : [0, 0, n, y])),
    ([n1, y1, n0, y0]) => (n1! > 0 && n0! > 0 ? y1! / n1! - y0! / n0! : Number.NaN),
  );

function verdict(low: number, high: number, told: boolean): string {
  if (!told) return 'each side needs two firings before it can be told from the luck of one';
  if (high < 0) return 'the change goes with fewer, beyond chance';
  if (low > 0) return 'the change goes with more, beyond chance';
  return 'no change beyond chance';
}

const points = (rate: number): string => `${rate > 0 ? '+' : rate < 0 ? '−' : ''}${percent(Math.abs(rate))}`;

async function run(ask: Ask, of: Input): Promise<Answered> {
  const all = await firings(ask, of);
  const { earlier, later } = compared(all, of.date);
  const what = outcomeName(of.outcome);
  const base = { from: of.from ?? null, to: of.to ?? null, figures: [] };
  if (earlier.pieces === 0 || later.pieces === 0)
    return {
      ...base,
      sentence: `There are no inspected pieces ${earlier.pieces === 0 ? 'before' : 'from'} ${of.date}${earlier.pieces === 0 ? '' : ' on'}: nothing to compare.`,
      rows: [],
      notes: [],
    };
  const plain = newcombe(later, earlier);
  const told = earlier.cluster !== undefined && later.cluster !== undefined;
  const cluster = told
    ? differenceOf({ rate: later.rate, ...later.believable }, { rate: earlier.rate, ...earlier.believable })
    : undefined;
  const bootstrap = drawn(all, of.date);
  const shown = cluster ?? plain;
  const side = (key: string, it: typeof earlier) => ({
    key,
    pieces: it.pieces,
    firings: it.firings,
    affected: it.affected,
    rate: it.rate,
    low: it.believable.low,
    high: it.believable.high,
    says: saidOf(it),
  });
  const row = {
    date: of.date,
    before: earlier.rate,
    after: later.rate,
    difference: plain.difference,
    low: plain.low,
    high: plain.high,
    clusterLow: cluster?.low ?? null,
    clusterHigh: cluster?.high ?? null,
    drawnLow: bootstrap?.low ?? null,
    drawnHigh: bootstrap?.high ?? null,
    fisherP: fisher({
      a: later.affected,
      b: later.pieces - later.affected,
      c: earlier.affected,
      d: earlier.pieces - earlier.affected,
    }).p,
    beforePieces: earlier.pieces,
    beforeFirings: earlier.firings,
    beforeAffected: earlier.affected,
    afterPieces: later.pieces,
    afterFirings: later.firings,
    afterAffected: later.affected,
  };
  return {
    ...base,
    sentence: `${capital(what)}: ${percent(earlier.rate)} % before ${of.date}, ${percent(later.rate)} % from then on; a difference between ${points(shown.low)} and ${points(shown.high)} in a hundred is believable: ${verdict(shown.low, shown.high, told)}.`,
    rows: [
      { kind: 'difference', ...row },
      ...[side('before', earlier), side('after', later)].map((it) => ({ kind: 'side', ...it })),
    ],
    notes: [
      'low and high take every piece as its own (Newcombe); the sentence takes pieces of one firing as alike, where each side has two firings.',
      (earlier.firings < FEW_FIRINGS || later.firings < FEW_FIRINGS) &&
        `Few firings: ${earlier.firings} before, ${later.firings} after.`,
      'What else changed about that day is in it too.',
    ].filter((note) => note !== false),
    figures: [
      {
        figure: 'ranking',
        title: 'Before and after',
        only: 'side',
        label: 'key',
        estimate: { field: 'rate', label: 'Rate', kind: 'rate' },
        low: 'low',
        high: 'high',
        pieces: 'pieces',
      },
      {
        figure: 'table',
        title: 'Before and after',
        only: 'side',
        columns: [
          { field: 'key', label: 'Time', kind: 'text' },
          { field: 'affected', label: 'Affected', kind: 'count' },
          { field: 'pieces', label: 'Pieces', kind: 'count' },
          { field: 'firings', label: 'Firings', kind: 'count' },
          { field: 'rate', label: 'Rate', kind: 'rate' },
          { field: 'low', label: 'Believable from', kind: 'rate' },
          { field: 'high', label: 'to', kind: 'rate' },
        ],
      },
    ],
  };
}

export const beforeAfter = report({
  title: 'Before and after a change',
  input,
  run: keeping('before-after', run),
});
