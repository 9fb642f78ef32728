/** The tables behind the rates: sums by firing and group, so that pieces of one firing stay together. */
import { text } from 'drizzle-orm/sqlite-core';
import { projection, type Row } from '../../server/contract/plugin.ts';
import { repairsOf } from '../../server/contract/studio/mended.ts';
import type { Lot, Portion } from '../../server/contract/studio/state.ts';
import { cells } from '../../server/contract/tables.ts';
import { glazesOn, KINDS, type Kind, stratumOf } from './kinds.ts';
import { type Unit, unitsOf, waitsSince } from './unit.ts';

/**
 * What a cell is found by: the group, and the firing whose luck its pieces share. In the order in
 * which reports walk them, so that the cells of one group and firing stand together.
 */
const at = {
  by: text('by').notNull(),
  key: text('key').notNull(),
  firing: text('firing').notNull(),
  day: text('day').notNull(),
  owner: text('owner').notNull(),
  /** 'first' inspected glaze firing of the piece, or 'later'. */
  turn: text('turn').notNull(),
};

/** `seconds` holds seconds, wasters and what was mended ungraded; `wasters` and `mended` are parts of it. */
export const rates = cells('rates', at, ['pieces', 'seconds', 'wasters', 'mended']);
export const flaws = cells('flaws', { fault: text('fault').notNull(), ...at }, ['pieces']);
export const waiting = cells('waiting', { day: text('day').notNull(), owner: text('owner').notNull() }, [
  'pieces',
]);
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

interface Place {
  readonly by: string;
  readonly key: string;
  readonly firing: string;
}

/** Everywhere that a unit counts. */
function places(portion: Portion, unit: Unit): Place[] {
  const glazeFiring = unit.passage.firing;
  const bisqueFiring = unit.bisque?.firing;
  const found: Place[] = [{ by: 'all', key: '', firing: glazeFiring }];
  if (bisqueFiring) found.push({ by: 'all-bisque', key: '', firing: bisqueFiring });
  for (const [by, kind] of Object.entries<Kind>(KINDS)) {
    const firing = kind.bisque ? bisqueFiring : glazeFiring;
    if (firing) for (const key of kind.keys(portion, unit)) found.push({ by, key, firing });
  }
  const stratum = stratumOf(portion, unit);
  found.push({ by: 'stratum', key: stratum, firing: glazeFiring });
  for (const glaze of glazesOn(unit))
    found.push({ by: 'glaze-stratum', key: `${glaze}|${stratum}`, firing: glazeFiring });
  return found;
}

function rowsOf(portion: Portion): { rates: Row[]; flaws: Row[] } {
  const rows: { rates: Row[]; flaws: Row[] } = { rates: [], flaws: [] };
  for (const [n, unit] of unitsOf(portion).entries()) {
    const count = (is: boolean) => (is ? portion.count : 0);
    const sums = {
      pieces: portion.count,
      seconds: count(unit.grade !== 'first'),
      wasters: count(unit.grade === 'waster'),
      mended: count(unit.grade === undefined),
    };
    for (const place of places(portion, unit)) {
      const cell = { ...place, day: unit.day, owner: portion.owner.kind, turn: n === 0 ? 'first' : 'later' };
      rows.rates.push({ ...cell, ...sums });
      for (const [fault, pieces] of unit.faults) rows.flaws.push({ fault, ...cell, pieces });
    }
  }
  return rows;
}

export const inspectedWare = projection<Lot>({
  version: 2,
  of: 'piece',
  tables: { rates, flaws, waiting, mended },
  rows: ({ portions }) => {
    const counted = portions.map(rowsOf);
    return {
      rates: counted.flatMap((rows) => rows.rates),
      flaws: counted.flatMap((rows) => rows.flaws),
      waiting: portions.flatMap((portion) => {
        const day = waitsSince(portion);
        return day ? [{ day, owner: portion.owner.kind, pieces: portion.count }] : [];
      }),
      mended: portions.flatMap((portion) => repairsOf(portion).map((row) => ({ ...row }))),
    };
  },
});
