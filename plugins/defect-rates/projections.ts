/** The tables behind the rates: sums by firing and group, so that pieces of one firing stay together, and the pieces. */
import { integer, text } from 'drizzle-orm/sqlite-core';
import { projection, type Row } from '../../server/contract/plugin.ts';
import { repairsOf } from '../../server/contract/studio/mended.ts';
import type { Lot, Portion } from '../../server/contract/studio/state.ts';
import { cells, facts } from '../../server/contract/tables.ts';
import { glazesOn, KINDS, type Kind, partsOf, stratumOf } from './kinds.ts';
import { markOf } from './mark.ts';
import { type Unit, unitsOf, waitsSince } from './unit.ts';

/**
 * What a cell is found by: the group, and the firing whose luck its pieces share. `month` is the
 * one in which that firing ended. In the order in which reports walk them, so that the cells of one
 * month, group and firing stand together.
 */
const at = {
  month: text('month').notNull(),
  key: text('key').notNull(),
  firing: text('firing').notNull(),
  /** On which the glaze firing ended. */
  day: text('day').notNull(),
  owner: text('owner').notNull(),
  /** 'first' inspected glaze firing of the piece, or 'later'. */
  turn: text('turn').notNull(),
};

/** `seconds` holds seconds, wasters and what was mended ungraded; `wasters` and `mended` are parts of it. */
export const rates = cells('rates', { by: text('by').notNull(), ...at }, [
  'pieces',
  'seconds',
  'wasters',
  'mended',
]);
export const flaws = cells('flaws', { by: text('by').notNull(), fault: text('fault').notNull(), ...at }, [
  'pieces',
]);
/** A number for each month that is another one once any cell of the month is. */
export const months = cells('months', { month: text('month').notNull() }, ['mark']);

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

const piece = {
  piece: text('piece').notNull(),
  mark: text('mark'),
  form: text('form'),
  count: integer('count').notNull(),
  day: text('day').notNull(),
  owner: text('owner').notNull(),
};

/** The inspected pieces behind the cells. */
export const units = facts(
  'units',
  {
    ...piece,
    turn: text('turn').notNull(),
    /** 'mended' where it was mended before it was graded. */
    grade: text('grade').notNull(),
    firing: text('firing').notNull(),
    bisqueFiring: text('bisque_firing'),
    /** ' pinholes=3 runs=1 ', to be found with LIKE, as are those below that begin with a space. */
    faults: text('faults').notNull(),
    glazes: text('glazes').notNull(),
    layers: text('layers').notNull(),
    methods: text('methods').notNull(),
    clay: text('clay').notNull(),
    begun: text('begun').notNull(),
    schedule: text('schedule').notNull(),
    bisque: text('bisque').notNull(),
    kiln: text('kiln').notNull(),
    bisqueKiln: text('bisque_kiln').notNull(),
    shelf: text('shelf').notNull(),
    coats: text('coats').notNull(),
  },
  [['day'], ['firing'], ['bisqueFiring']],
);

/** The pieces behind the repairs. `outcome`: worked, not, or waiting. */
export const repaired = facts(
  'repaired',
  {
    ...piece,
    fault: text('fault').notNull(),
    repair: text('repair').notNull(),
    outcome: text('outcome').notNull(),
  },
  [['day']],
);

interface Place {
  readonly by: string;
  readonly key: string;
  readonly firing: string;
  readonly month: string;
}

/** Everywhere that a unit counts. */
function places(portion: Portion, unit: Unit): Place[] {
  const glaze = { firing: unit.passage.firing, month: unit.day.slice(0, 7) };
  const bisque = unit.bisque && {
    firing: unit.bisque.firing,
    month: (unit.bisque.endedAt ?? unit.bisque.packedAt).slice(0, 7),
  };
  const found: Place[] = [{ by: 'all', key: '', ...glaze }];
  if (bisque) found.push({ by: 'all-bisque', key: '', ...bisque });
  for (const [by, kind] of Object.entries<Kind>(KINDS)) {
    const firing = kind.bisque ? bisque : glaze;
    if (firing) for (const key of kind.keys(portion, unit)) found.push({ by, key, ...firing });
  }
  const stratum = stratumOf(portion, unit);
  found.push({ by: 'stratum', key: stratum, ...glaze });
  for (const id of glazesOn(unit)) found.push({ by: 'glaze-stratum', key: `${id}|${stratum}`, ...glaze });
  if (portion.clay)
    found.push({ by: 'clay-begun', key: `${portion.clay}|${portion.begunAt.slice(0, 10)}`, ...glaze });
  return found;
}

function rowsOf(portion: Portion, unit: Unit, turn: 'first' | 'later') {
  const rows: { rates: Row[]; flaws: Row[] } = { rates: [], flaws: [] };
  const { day, grade } = unit;
  const owner = portion.owner.kind;
  const pieces = portion.count;
  const seconds = grade === 'first' ? 0 : pieces;
  const wasters = grade === 'waster' ? pieces : 0;
  const mended = grade === undefined ? pieces : 0;
  // Field by field: of each piece there are some forty of these rows.
  for (const { by, key, firing, month } of places(portion, unit)) {
    rows.rates.push({ by, month, key, firing, day, owner, turn, pieces, seconds, wasters, mended });
    for (const [fault, found] of unit.faults)
      rows.flaws.push({ by, fault, month, key, firing, day, owner, turn, pieces: found });
  }
  const touched = [...new Set(rows.rates.map(({ month }) => String(month)))];
  const row = unitRow(portion, unit, turn);
  // All that the cells are made of stands in the piece's own row, but for the months.
  const mark = markOf(JSON.stringify([row, touched]));
  return { ...rows, months: touched.map((month) => ({ month, mark })), unit: row };
}

const spaced = (keys: readonly string[]): string => ` ${keys.map((key) => `${key} `).join('')}`;

const pieceOf = (portion: Portion) => ({
  piece: portion.piece,
  mark: portion.mark ?? null,
  form: portion.form ?? null,
  count: portion.count,
  owner: portion.owner.kind,
});

function unitRow(portion: Portion, unit: Unit, turn: string): Row {
  const { glazes, layers, methods, coats } = partsOf(unit);
  return {
    ...pieceOf(portion),
    day: unit.day,
    turn,
    grade: unit.grade ?? 'mended',
    firing: unit.passage.firing,
    bisqueFiring: unit.bisque?.firing ?? null,
    faults: spaced([...unit.faults].map(([fault, pieces]) => `${fault}=${pieces}`)),
    glazes: spaced(glazes),
    layers: spaced(layers),
    methods: spaced(methods),
    clay: portion.clay ?? '',
    begun: portion.begunAt.slice(0, 10),
    schedule: unit.passage.schedule ?? '',
    bisque: unit.bisque?.schedule ?? '',
    kiln: unit.passage.kiln,
    bisqueKiln: unit.bisque?.kiln ?? '',
    shelf: unit.passage.shelf === undefined ? '' : String(unit.passage.shelf),
    coats: coats ?? '',
  };
}

const repairRow = (portion: Portion) =>
  repairsOf(portion).map(({ tried, worked, waiting: _, day, fault, repair }) => ({
    ...pieceOf(portion),
    ...{ day, fault, repair },
    outcome: tried === 0 ? 'waiting' : worked > 0 ? 'worked' : 'not',
  }));

export const inspectedWare = projection<Lot>({
  version: 4,
  of: 'piece',
  tables: { rates, flaws, months, units, waiting, mended, repaired },
  rows: ({ portions }) => {
    const counted = portions.flatMap((portion) =>
      unitsOf(portion).map((unit, n) => rowsOf(portion, unit, n === 0 ? 'first' : 'later')),
    );
    return {
      rates: counted.flatMap((rows) => rows.rates),
      flaws: counted.flatMap((rows) => rows.flaws),
      months: counted.flatMap((rows) => rows.months),
      units: counted.map((rows) => rows.unit),
      waiting: portions.flatMap((portion) => {
        const day = waitsSince(portion);
        return day ? [{ day, owner: portion.owner.kind, pieces: portion.count }] : [];
      }),
      mended: portions.flatMap((portion) => repairsOf(portion).map((row) => ({ ...row }))),
      repaired: portions.flatMap(repairRow),
    };
  },
});
