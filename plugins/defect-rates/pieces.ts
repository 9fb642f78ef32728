/** The inspected pieces behind a rate. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { type Behind, piecesBehind } from '../../server/contract/reports/behind.ts';
import { period } from '../../server/contract/reports/period.ts';
import { escapeLike, marks } from '../../server/contract/reports/sql.ts';
import { outcome } from './asked.ts';
import type { KindName } from './kinds.ts';

const day = z.iso.date().optional();
const key = z.string().max(400);

const input = z.strictObject({
  ...period,
  outcome: outcome.outcome,
  /** `first` or `all`, or the id of one glaze firing. */
  firing: z.string().max(120).default('first'),
  by: z.string().max(40).default('all'),
  key: key.default(''),
  /** Only those that are second, waster or have the fault, as `outcome` says. */
  affected: z.enum(['yes', 'all']).default('all'),
  /** Ware of one clay and pair of schedules; '-' where it is not noted. */
  clay: key.optional(),
  bisque: key.optional(),
  schedule: key.optional(),
  /** Ware without this glaze. */
  without: key.optional(),
  begunFrom: day,
  begunUntil: day,
  packedFrom: day,
  packedUntil: day,
  limit: z.coerce.number().int().min(1).max(5_000).default(500),
});
type Input = z.infer<typeof input>;

interface Part {
  readonly sql: string;
  readonly params: readonly (string | number)[];
}

const is = (column: string, value: string): Part => ({ sql: `${column} = ?`, params: [value] });
/** Among keys that have a space on each side. */
const among = (column: string, value: string): Part => ({
  sql: `${column} LIKE ? ESCAPE '\\'`,
  params: [`% ${escapeLike(value)} %`],
});
const both = (one: Part, other: Part): Part => ({
  sql: `${one.sql} AND ${other.sql}`,
  params: [...one.params, ...other.params],
});
const not = ({ sql, params }: Part): Part => ({ sql: `NOT ${sql}`, params });
const pair = (value: string, second: string): Part => {
  const [glaze, other] = value.split('|') as [string, string?];
  return both(among('glazes', glaze), is(second, other ?? ''));
};

/** Which pieces count under a key of each kind: the same as in kinds.ts. */
const UNDER: Readonly<Record<KindName | 'all' | 'all-bisque', (key: string) => Part>> = {
  all: () => ({ sql: '1', params: [] }),
  'all-bisque': () => ({ sql: 'bisque_firing IS NOT NULL', params: [] }),
  glaze: (id) => among('glazes', id),
  clay: (id) => is('clay', id),
  schedule: (id) => is('schedule', id),
  'bisque-schedule': (id) => is('bisque', id),
  kiln: (id) => is('kiln', id),
  'bisque-kiln': (id) => is('bisque_kiln', id),
  shelf: (value) => {
    const [kiln, shelf] = value.split('|') as [string, string?];
    return both(is('kiln', kiln), is('shelf', shelf ?? ''));
  },
  coats: (coats) => is('coats', coats),
  method: (id) => among('methods', id),
  layers: (value) => among('layers', value),
  'glaze-clay': (value) => pair(value, 'clay'),
  'glaze-schedule': (value) => pair(value, 'schedule'),
  'glaze-bisque-schedule': (value) => pair(value, 'bisque'),
};

const isKind = (by: string): by is keyof typeof UNDER => Object.hasOwn(UNDER, by);

function affectedBy(of: Input): Part[] {
  if (of.affected === 'all') return [];
  if (of.outcome === 'seconds') return [{ sql: "grade <> 'first'", params: [] }];
  if (of.outcome === 'wasters') return [is('grade', 'waster')];
  return [{ sql: `faults LIKE ? ESCAPE '\\'`, params: [`% ${escapeLike(of.outcome)}=%`] }];
}

function conditions(of: Input): Part[] {
  const noted = (value: string) => (value === '-' ? '' : value);
  const firing = of.by.includes('bisque') ? 'bisque_firing' : 'firing';
  const packed = (sign: string, on: string): Part => ({
    sql: `${firing} IN (SELECT firing FROM packings WHERE day ${sign} ?)`,
    params: [on],
  });
  return [
    ...(isKind(of.by) ? [UNDER[of.by](of.key)] : []),
    ...affectedBy(of),
    ...(of.firing === 'first' ? [is('turn', 'first')] : of.firing === 'all' ? [] : [is('firing', of.firing)]),
    ...(of.clay === undefined ? [] : [is('clay', noted(of.clay))]),
    ...(of.bisque === undefined ? [] : [is('bisque', noted(of.bisque))]),
    ...(of.schedule === undefined ? [] : [is('schedule', noted(of.schedule))]),
    ...(of.without ? [not(among('glazes', of.without))] : []),
    ...(of.begunFrom ? [{ sql: 'begun >= ?', params: [of.begunFrom] }] : []),
    ...(of.begunUntil ? [{ sql: 'begun <= ?', params: [of.begunUntil] }] : []),
    ...(of.packedFrom ? [packed('>=', of.packedFrom)] : []),
    ...(of.packedUntil ? [packed('<=', of.packedUntil)] : []),
  ];
}

interface Found extends Behind {
  readonly faults: string;
}

/** Of a lot with the fault on some pieces only those count. */
function counted({ faults, ...row }: Found, of: Input): Behind {
  const fault = of.affected === 'yes' && of.outcome !== 'seconds' && of.outcome !== 'wasters';
  const its = fault ? faults.split(' ').find((it) => it.startsWith(`${of.outcome}=`)) : undefined;
  return its ? { ...row, count: Number(its.slice(of.outcome.length + 1)) } : row;
}

async function run(ask: Ask, of: Input): Promise<Answered> {
  const parts = conditions(of);
  const found = await ask.query<Found>(
    `SELECT piece, mark, form, count, grade, day, faults FROM units
     WHERE day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})
       ${parts.map(({ sql }) => `AND ${sql}`).join(' ')}
     ORDER BY day DESC, piece LIMIT ?`,
    [of.from ?? '', of.to ?? '9999', ...of.owners, ...parts.flatMap(({ params }) => params), of.limit + 1],
  );
  return piecesBehind(
    found.map((row) => counted(row, of)),
    {
      ...of,
      notes: [
        'The grade is that of the firing that is counted, before any mending; mended: fired again before it was graded.',
      ],
    },
  );
}

export const pieces = report({ title: 'The pieces behind a rate', input, unlisted: true, run });

const repairInput = z.strictObject({
  ...period,
  fault: z.string().max(80),
  repair: z.string().max(80),
  /** Those that worked only. */
  worked: z.enum(['yes', 'all']).default('all'),
  limit: z.coerce.number().int().min(1).max(5_000).default(500),
});

async function repaired(ask: Ask, of: z.infer<typeof repairInput>): Promise<Answered> {
  const found = await ask.query<Behind>(
    `SELECT piece, mark, form, count, outcome AS grade, day FROM repaired
     WHERE fault = ? AND repair = ? AND outcome <> 'waiting' AND day >= ? AND day <= ?
       AND owner IN (${marks(of.owners.length)}) ${of.worked === 'yes' ? "AND outcome = 'worked'" : ''}
     ORDER BY day DESC, piece LIMIT ?`,
    [of.fault, of.repair, of.from ?? '', of.to ?? '9999', ...of.owners, of.limit + 1],
  );
  return piecesBehind(found, { ...of, dayLabel: 'Mended' });
}

export const repairPieces = report({
  title: 'The pieces behind a repair',
  input: repairInput,
  unlisted: true,
  run: repaired,
});
