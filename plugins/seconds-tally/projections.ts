/** The tally's tables: sums by day and group, and the graded pieces behind them. */
import { text } from 'drizzle-orm/sqlite-core';
import { projection } from '../../server/contract/plugin.ts';
import type { Lot } from '../../server/contract/studio/state.ts';
import { cells, facts } from '../../server/contract/tables.ts';
import { type Counted, countPortion, type Under, ungraded } from './counted.ts';
import { gradedPiece } from './graded-piece.ts';

export const tally = cells(
  'tally',
  {
    by: text('by').notNull(),
    key: text('key').notNull(),
    day: text('day').notNull(),
    owner: text('owner').notNull(),
    currency: text('currency').notNull(),
  },
  ['pieces', 'firsts', 'seconds', 'wasters', 'lost', 'unpriced'],
);

export const waiting = cells('waiting', { day: text('day').notNull(), owner: text('owner').notNull() }, [
  'pieces',
]);

export const graded = facts(
  'graded',
  {
    ...gradedPiece(),
    /** '|by=key=count|…': what the piece counts under, to be found with LIKE. */
    under: text('under').notNull(),
  },
  [['day']],
);

export const underText = (under: readonly Under[]): string =>
  `|${under.map(({ by, key, count }) => `${by}=${key}=${count}`).join('|')}|`;

const cell = (counted: Counted, { by, key, count }: Under) => ({
  by,
  key,
  day: counted.day,
  owner: counted.owner,
  currency: counted.currency,
  pieces: count,
  firsts: counted.grade === 'first' ? count : 0,
  seconds: counted.grade === 'second' ? count : 0,
  wasters: counted.grade === 'waster' ? count : 0,
  lost: (counted.lost / counted.count) * count,
  unpriced: counted.unpriced > 0 ? count : 0,
});

export const gradedWare = projection<Lot>({
  version: 1,
  of: 'piece',
  tables: { tally, waiting, graded },
  rows: ({ portions }) => {
    const counted = portions.flatMap((portion) => countPortion(portion) ?? []);
    return {
      tally: counted.flatMap((c) => c.under.map((under) => cell(c, under))),
      waiting: portions.flatMap((portion) => {
        const waits = ungraded(portion);
        return waits ? [{ day: waits.day, owner: waits.owner, pieces: waits.count }] : [];
      }),
      graded: counted.map(({ under, unpriced: _, ...c }) => ({ ...c, under: underText(under) })),
    };
  },
});
