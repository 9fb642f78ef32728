/**
 * The tables behind the year: sums by firing, so that pieces of one firing stay together, and what
 * was mended.
 */
import { text } from 'drizzle-orm/sqlite-core';
import { projection, type Row } from '../../../server/contract/plugin.ts';
import { repairsOf } from '../../../server/contract/studio/mended.ts';
import type { Lot, Portion } from '../../../server/contract/studio/state.ts';
import { cells } from '../../../server/contract/tables.ts';
import { firstFaults, firstFiring } from '../first-firing.ts';

/**
 * All of it as the ware came out of its first glaze firing, before any mending: so last year's ware
 * has no advantage from having had longer to be mended. `by` 'out': all; 'glaze', 'clay', 'bisque'
 * and 'schedule'; 'fault' and 'glaze-fault' (pieces with the fault); 'unnoted': spoiled, and no
 * fault noted.
 */
export const fired = cells(
  'fired',
  {
    by: text('by').notNull(),
    day: text('day').notNull(),
    key: text('key').notNull(),
    firing: text('firing').notNull(),
    owner: text('owner').notNull(),
  },
  ['pieces', 'spoiled'],
);

export const mended = cells(
  'mended',
  {
    day: text('day').notNull(),
    fault: text('fault').notNull(),
    repair: text('repair').notNull(),
    owner: text('owner').notNull(),
  },
  ['tried', 'worked', 'waiting'],
);

const CAUSES: readonly string[] = ['glaze', 'clay', 'bisque', 'schedule'];

function firedOf(portion: Portion): Row[] {
  const rows = firstFiring(portion).filter(({ grade }) => grade !== '');
  const [first] = rows;
  if (!first) return [];
  const { day, owner, firing, grade, present } = first;
  const count = portion.count;
  const row = (by: string, key: string, pieces: number): Row => ({
    ...{ by, day, key, firing, owner, pieces },
    spoiled: grade === 'first' ? 0 : pieces,
  });
  const causes = present
    .split(' ')
    .map((text) => text.split('=') as [by: string, key: string])
    .filter(([by]) => CAUSES.includes(by));
  const faults = [...firstFaults(portion)];
  const glazes = causes.filter(([by]) => by === 'glaze').map(([, key]) => key);
  const unnoted = grade === 'first' ? 0 : Math.max(0, count - faults.reduce((sum, [, n]) => sum + n, 0));
  return [
    row('out', '', count),
    ...causes.map(([by, key]) => row(by, key, count)),
    ...faults.map(([fault, pieces]) => row('fault', fault, pieces)),
    ...glazes.flatMap((glaze) =>
      faults.map(([fault, pieces]) => row('glaze-fault', `${glaze}|${fault}`, pieces)),
    ),
    ...(unnoted > 0 ? [row('unnoted', '', unnoted)] : []),
  ];
}

export const firedWare = projection<Lot>({
  version: 1,
  of: 'piece',
  tables: { fired, mended },
  rows: ({ portions }) => ({
    fired: portions.flatMap(firedOf),
    mended: portions.flatMap((portion) => repairsOf(portion).map((row) => ({ ...row }))),
  }),
});
