/** The tables of first glaze firings, behind the worst glaze: the pieces, and sums of them. */
import { text } from 'drizzle-orm/sqlite-core';
import { projection } from '../../server/contract/plugin.ts';
import type { Lot } from '../../server/contract/studio/state.ts';
import { cells, facts } from '../../server/contract/tables.ts';
import { type FirstFiring, firstFiring, withoutFiring } from './first-firing.ts';
import { gradedPiece } from './graded-piece.ts';

export const firstFirings = facts(
  'first_firings',
  {
    ...gradedPiece(),
    firing: text('firing').notNull(),
    label: text('label'),
    /** ' glaze=a clay=b ': to be found with LIKE, for ids have no spaces. */
    present: text('present').notNull(),
    suspects: text('suspects'),
  },
  [['day'], ['firing']],
);

/** Graded and ungraded pieces of each firing. */
export const firingLoads = cells(
  'firing_loads',
  {
    day: text('day').notNull(),
    firing: text('firing').notNull(),
    owner: text('owner').notNull(),
    currency: text('currency').notNull(),
  },
  ['pieces', 'seconds', 'ungraded'],
);

/** Graded pieces by what was there and what is suspected, the firing left out; `suspects` is '' where they came out well. */
export const firstPatterns = cells(
  'first_patterns',
  {
    month: text('month').notNull(),
    owner: text('owner').notNull(),
    present: text('present').notNull(),
    suspects: text('suspects').notNull(),
    currency: text('currency').notNull(),
  },
  ['pieces', 'lost'],
);

const loadOf = ({ day, firing, owner, currency, count, grade, suspects }: FirstFiring) => ({
  ...{ day, firing, owner, currency },
  pieces: grade === '' ? 0 : count,
  seconds: suspects === null ? 0 : count,
  ungraded: grade === '' ? count : 0,
});

const patternOf = (it: FirstFiring) => ({
  month: it.day.slice(0, 7),
  owner: it.owner,
  present: withoutFiring(it.present),
  suspects: it.suspects === null ? '' : withoutFiring(it.suspects),
  currency: it.currency,
  pieces: it.count,
  lost: it.lost,
});

export const firedOnce = projection<Lot>({
  version: 2,
  of: 'piece',
  tables: { first_firings: firstFirings, firing_loads: firingLoads, first_patterns: firstPatterns },
  rows: ({ portions }) => {
    const found = portions.flatMap(firstFiring);
    return {
      first_firings: found.map((row) => ({ ...row })),
      firing_loads: found.map(loadOf),
      first_patterns: found.filter(({ grade }) => grade !== '').map(patternOf),
    };
  },
});
