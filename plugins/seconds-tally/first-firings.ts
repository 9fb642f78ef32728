/** The table of first glaze firings, behind the worst glaze. */
import { integer, text } from 'drizzle-orm/sqlite-core';
import { projection } from '../../server/contract/plugin.ts';
import type { Lot } from '../../server/contract/studio/state.ts';
import { facts } from '../../server/contract/tables.ts';
import { firstFiring } from './first-firing.ts';

export const firstFirings = facts(
  'first_firings',
  {
    piece: text('piece').notNull(),
    mark: text('mark'),
    form: text('form'),
    count: integer('count').notNull(),
    grade: text('grade').notNull(),
    day: text('day').notNull(),
    owner: text('owner').notNull(),
    lost: integer('lost').notNull(),
    currency: text('currency').notNull(),
    firing: text('firing').notNull(),
    label: text('label'),
    /** ' glaze=a clay=b ': to be found with LIKE, for ids have no spaces. */
    present: text('present').notNull(),
    suspects: text('suspects'),
  },
  [['day']],
);

export const firedOnce = projection<Lot>({
  version: 1,
  of: 'piece',
  tables: { first_firings: firstFirings },
  rows: ({ portions }) => ({
    first_firings: portions.flatMap((portion) => firstFiring(portion).map((row) => ({ ...row }))),
  }),
});
