/** Did the change help? The rate before a change and after it, with the difference. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { keeping } from '../../server/contract/reports/keeping.ts';
import { period } from '../../server/contract/reports/period.ts';
import { capital, percent } from '../../server/contract/reports/words.ts';
import { differenceOf, FEW_FIRINGS } from '../../server/contract/statistics/cluster.ts';
import { fisher } from '../../server/contract/statistics/fisher.ts';
import { newcombe } from '../../server/contract/statistics/newcombe.ts';
import { type Asked, linkTo, material, outcome, outcomeName } from './asked.ts';
import { compared, drawn } from './compared.ts';
import { byDay, bySwitch, FILTERS, type Sides } from './sides.ts';
import { type Switch, switchCalled, switches } from './switches.ts';
import { saidOf } from './wording.ts';

const input = z
  .strictObject({
    ...period,
    ...outcome,
    /** The first day of the new way. */
    date: z.iso.date().optional(),
    /** Or a change by its name: a batch of clay opened, a schedule written anew or first used. */
    switch: z.string().trim().min(1).max(200).optional(),
    glaze: material.optional(),
    clay: material.optional(),
    schedule: material.optional(),
    kiln: material.optional(),
  })
  .refine((of) => FILTERS.filter((filter) => of[filter]).length < 2, {
    message: 'one of glaze, clay, schedule and kiln',
    path: ['glaze'],
  })
  .refine((of) => !of.switch || !(of.date || FILTERS.some((filter) => of[filter])), {
    message: 'a change by its name, without a day and without glaze, clay, schedule and kiln',
    path: ['switch'],
  });
type Input = z.infer<typeof input>;

function verdict(low: number, high: number, told: boolean, few: boolean): string {
  if (!told) return 'each side needs two firings before it can be told from the luck of one';
  if (low <= 0 && high >= 0) return 'no change beyond chance';
  // In few firings nothing is called different: two lucky ones may be all that was seen.
  if (few) return `${high < 0 ? 'fewer' : 'more'}, but in too few firings to say`;
  return high < 0 ? 'the change goes with fewer, beyond chance' : 'the change goes with more, beyond chance';
}

const points = (rate: number): string => `${rate > 0 ? '+' : rate < 0 ? '−' : ''}${percent(Math.abs(rate))}`;

async function run(ask: Ask, of: Input): Promise<Answered> {
  if (of.switch) {
    const found = await switchCalled(ask, of.switch);
    return found ? answered(of, await bySwitch(ask, of as Asked, found)) : choosing(ask, of, of.switch);
  }
  if (!of.date) return choosing(ask, of);
  const by = FILTERS.find((it) => of[it]);
  return answered(of, await byDay(ask, of as Asked, of.date, by && { by, key: of[by]! }));
}

/** The changes that the record names, to choose from. */
async function choosing(ask: Ask, of: Input, missed?: string): Promise<Answered> {
  const all = await switches(ask);
  const choose = all.length > 0 ? 'choose a day, or one of these changes' : 'choose a day';
  const link = (it: Switch) => linkTo('before-after', of as Asked, { switch: it.id });
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence: missed
      ? `The record names no change “${missed}”: ${choose}.`
      : `To see before and after, ${choose}.`,
    rows: all.map((it) => ({
      kind: 'switch',
      key: it.id,
      label: it.label,
      date: it.day,
      labelBehind: link(it),
    })),
    notes: ['A batch of clay, and a schedule that was written anew, stand here by themselves once recorded.'],
    figures: [
      {
        figure: 'table',
        title: 'Changes on record',
        columns: [
          { field: 'label', label: 'Change', kind: 'text', behind: 'labelBehind' },
          { field: 'date', label: 'From', kind: 'day' },
        ],
      },
    ],
  };
}

type Side = ReturnType<typeof compared>['earlier'];

function sideRow(of: Input, { before, after, behind }: Sides, later: boolean, it: Side) {
  const pieces = (affected?: string) =>
    linkTo('pieces', of as Asked, { ...behind(later), ...(affected ? { affected } : {}) });
  return {
    kind: 'side',
    key: later ? 'after' : 'before',
    label: capital(later ? after : before),
    pieces: it.pieces,
    firings: it.firings,
    affected: it.affected,
    rate: it.rate,
    low: it.believable.low,
    high: it.believable.high,
    says: saidOf(it),
    piecesBehind: pieces(),
    affectedBehind: pieces('yes'),
    labelBehind: pieces(),
  };
}

function answered(of: Input, sides: Sides): Answered {
  const { earlier, later, clusterP } = compared(sides.shares);
  const what = outcomeName(of.outcome);
  const base = { from: of.from ?? null, to: of.to ?? null, figures: [] };
  if (earlier.pieces === 0 || later.pieces === 0)
    return {
      ...base,
      sentence: `There are no inspected pieces ${earlier.pieces === 0 ? sides.before : `after (${sides.after})`}: nothing to compare.`,
      rows: [],
      notes: [],
    };
  const plain = newcombe(later, earlier);
  const told = earlier.cluster !== undefined && later.cluster !== undefined;
  const cluster = told
    ? differenceOf({ rate: later.rate, ...later.believable }, { rate: earlier.rate, ...earlier.believable })
    : undefined;
  const bootstrap = drawn(sides.shares);
  const shown = cluster ?? plain;
  const few = earlier.firings < FEW_FIRINGS || later.firings < FEW_FIRINGS;
  const row = {
    date: sides.date,
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
    clusterP,
    beforePieces: earlier.pieces,
    beforeFirings: earlier.firings,
    beforeAffected: earlier.affected,
    afterPieces: later.pieces,
    afterFirings: later.firings,
    afterAffected: later.affected,
  };
  return {
    ...base,
    sentence: `${capital(what)}: ${percent(earlier.rate)} % ${sides.before}, ${percent(later.rate)} % ${sides.after}; a difference between ${points(shown.low)} and ${points(shown.high)} in a hundred is believable: ${verdict(shown.low, shown.high, told, few)}.`,
    rows: [
      { kind: 'difference', ...row },
      sideRow(of, sides, false, earlier),
      sideRow(of, sides, true, later),
    ],
    notes: [
      'low and high take every piece as its own (Newcombe); the sentence takes pieces of one firing as alike, where each side has two firings.',
      few && `Few firings: ${earlier.firings} before, ${later.firings} after.`,
      'What else changed about that day is in it too.',
    ].filter((note) => note !== false),
    figures: FIGURES,
  };
}

const FIGURES: Answered['figures'] = [
  {
    figure: 'ranking',
    title: 'Before and after',
    only: 'side',
    label: 'label',
    estimate: { field: 'rate', label: 'Rate', kind: 'rate', behind: 'affectedBehind' },
    low: 'low',
    high: 'high',
    pieces: 'pieces',
  },
  {
    figure: 'table',
    title: 'Before and after in numbers',
    only: 'side',
    columns: [
      { field: 'label', label: 'Time', kind: 'text', behind: 'piecesBehind' },
      { field: 'affected', label: 'Affected', kind: 'count', behind: 'affectedBehind' },
      { field: 'pieces', label: 'Pieces', kind: 'count', behind: 'piecesBehind' },
      { field: 'firings', label: 'Firings', kind: 'count' },
      { field: 'rate', label: 'Rate', kind: 'rate' },
      { field: 'low', label: 'Believable from', kind: 'rate' },
      { field: 'high', label: 'to', kind: 'rate' },
    ],
  },
];

export const beforeAfter = report({
  title: 'Before and after a change',
  input,
  run: keeping('before-after', run),
});
