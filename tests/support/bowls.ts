/** A small invented plugin for the tests of read models: bowls, their glaze, and where pieces went. */
import { integer, text } from 'drizzle-orm/sqlite-core';
import { z } from 'zod';
import { CONTRACT, definePlugin, event, projection, report } from '../../server/contract/plugin.ts';
import type { StreamKind } from '../../server/contract/streams.ts';
import { cells, facts } from '../../server/contract/tables.ts';

export interface Bowl {
  readonly bowl: string;
  readonly count: number;
  readonly glaze: string | null;
  readonly day: string | null;
  readonly faults: readonly string[];
}

type Data = { from?: string; to?: string; glaze?: string; count?: number; fault?: string };

export const bowlKind: StreamKind<Bowl> = {
  prefix: 'bowl',
  initial: (bowl) => ({ bowl, count: 0, glaze: null, day: null, faults: [] }),
  evolve: (state, { name, data, happenedAt }) => {
    const { from, to, glaze, count = 0, fault } = data as Data;
    const day = happenedAt.slice(0, 10);
    if (name === 'bowl.made') return { ...state, count: state.count + count, day };
    if (name === 'bowl.glazed') return { ...state, glaze: glaze ?? null, day };
    if (name === 'bowl.faulted') return { ...state, faults: [...state.faults, fault!] };
    if (name === 'bowl.split') {
      if (from === state.bowl) return { ...state, count: state.count - count };
      if (to === state.bowl) return { ...state, count: state.count + count, day };
    }
    return state;
  },
  legal: () => undefined,
};

export const bowls = facts(
  'bowls',
  {
    bowl: text('bowl').primaryKey(),
    count: integer('count').notNull(),
    glaze: text('glaze'),
    lastDay: text('last_day'),
  },
  [['glaze', 'count']],
);
export const faults = facts('bowl_faults', {
  fault: text('fault').notNull(),
  place: integer('place').notNull(),
});
/** A bowl without glaze adds to a cell whose key is null. */
export const byGlaze = cells('bowls_by_glaze', { day: text('day'), glaze: text('glaze') }, [
  'pieces',
  'lots',
]);

export const bowlEvents = {
  'bowl.made': event({ rank: 0, shape: z.strictObject({ count: z.number() }) }),
  'bowl.split': event({
    rank: 5,
    shape: z.strictObject({ from: z.string(), to: z.string(), count: z.number() }),
  }),
  'bowl.glazed': event({ rank: 40, shape: z.strictObject({ glaze: z.string() }) }),
  'bowl.faulted': event({ rank: 70, shape: z.strictObject({ fault: z.string() }) }),
};

export const bowlList = projection<Bowl>({
  version: 1,
  of: 'bowl',
  tables: { bowls, bowl_faults: faults, bowls_by_glaze: byGlaze },
  rows: ({ bowl, count, glaze, day, faults: found }) => ({
    bowls: [{ bowl, count, glaze, lastDay: day }],
    bowl_faults: found.map((fault, place) => ({ fault, place })),
    bowls_by_glaze: count === 0 ? [] : [{ day, glaze, pieces: count, lots: 1 }],
  }),
});

export const allBowls = report({
  title: 'All bowls',
  input: z.strictObject({ glaze: z.string().optional(), least: z.coerce.number().int().min(0).default(0) }),
  run: async (ask, { glaze, least }) => {
    const rows = await ask.query<{ bowl: string; count: number; glaze: string | null }>(
      'SELECT bowl, count, glaze FROM bowls WHERE count >= ? AND (? IS NULL OR glaze = ?) ORDER BY bowl',
      [least, glaze ?? null, glaze ?? null],
    );
    return {
      sentence: `${rows.reduce((sum, row) => sum + row.count, 0)} bowls.`,
      rows,
      notes: [],
      figures: [],
    };
  },
});

export const bowlPlugin = definePlugin({
  id: 'bowls',
  contract: CONTRACT,
  about: 'Counts bowls.',
  needs: [],
  prefixes: ['bowl'],
  events: bowlEvents,
  streams: [bowlKind],
  projections: { list: bowlList },
  reports: { all: allBowls },
});
