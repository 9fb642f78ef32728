/** Changes with a name: a schedule written anew or first used, a batch of clay opened. */
import { integer, text } from 'drizzle-orm/sqlite-core';
import { type Ask, projection } from '../../server/contract/plugin.ts';
import type { Firing, Material } from '../../server/contract/studio/state.ts';
import { facts } from '../../server/contract/tables.ts';

export const batchesOpened = projection<Material>({
  version: 1,
  of: 'clay',
  tables: {
    clay_batches: facts('clay_batches', {
      clay: text('clay').notNull(),
      name: text('name').notNull(),
      batch: text('batch').notNull(),
      day: text('day').notNull(),
    }),
  },
  rows: ({ id: clay, facts: newest, batches }) => ({
    clay_batches: newest
      ? batches.map(({ batch, at }) => ({ clay, name: newest.name, batch, day: at.slice(0, 10) }))
      : [],
  }),
});

export const schedulesWritten = projection<Material>({
  version: 1,
  of: 'schedule',
  tables: {
    schedule_versions: facts('schedule_versions', {
      schedule: text('schedule').notNull(),
      name: text('name').notNull(),
      version: integer('version').notNull(),
      day: text('day').notNull(),
    }),
  },
  rows: ({ id: schedule, facts: newest, written }) => ({
    schedule_versions: newest
      ? written.map((at, n) => ({ schedule, name: newest.name, version: n + 1, day: at.slice(0, 10) }))
      : [],
  }),
});

/** On which day a firing was packed: from then on it followed the schedule as it was written by then. */
export const kilnsPacked = projection<Firing>({
  version: 1,
  of: 'firing',
  tables: {
    packings: facts(
      'packings',
      {
        firing: text('firing').notNull(),
        day: text('day').notNull(),
        schedule: text('schedule'),
        role: text('role').notNull(),
      },
      [['firing'], ['schedule', 'day'], ['day']],
    ),
  },
  rows: ({ firing, schedule, role, packedAt, state }) => ({
    packings:
      role && packedAt && state !== 'none' && state !== 'abandoned'
        ? [{ firing, day: packedAt.slice(0, 10), schedule: schedule ?? null, role }]
        : [],
  }),
});

export interface Switch {
  /** 'batch' of a clay, 'version' of a schedule, 'first-use' of a schedule. */
  readonly kind: 'batch' | 'version' | 'first-use';
  /** By which it is asked for. */
  readonly id: string;
  readonly label: string;
  /** First day of the new way. */
  readonly day: string;
  /** Of the clay or schedule. */
  readonly of: string;
  readonly role?: 'bisque' | 'glaze';
}

interface Used {
  readonly schedule: string;
  readonly name: string;
  readonly version: number;
  /** First packed on it, as it was written then. */
  readonly day: string;
  readonly role: 'bisque' | 'glaze';
}

/** All changes that the record names, the newest first. */
export async function switches(ask: Ask): Promise<Switch[]> {
  const [batches, used] = await Promise.all([
    ask.query<{ clay: string; name: string; batch: string; day: string }>('SELECT * FROM clay_batches'),
    ask.query<Used>(
      `SELECT v.schedule, v.name, v.version, min(p.day) AS day, p.role FROM schedule_versions v
       JOIN packings p ON p.schedule = v.schedule AND p.day >= v.day AND p.role IN ('bisque', 'glaze')
       GROUP BY v.schedule, v.version, p.role`,
    ),
  ]);
  const opened = batches.map(
    ({ clay, name, batch, day }): Switch => ({
      kind: 'batch',
      id: `batch:${clay}:${batch}`,
      label: `${name}, batch ${batch}`,
      day,
      of: clay,
    }),
  );
  const written = used.map(({ schedule, name, version, day, role }): Switch => {
    const first = version === 1;
    return {
      kind: first ? 'first-use' : 'version',
      id: `schedule:${schedule}:${version}:${role}`,
      label: first ? `${name}, first used` : `${name}, as it was written for the ${ordinal(version)} time`,
      day,
      of: schedule,
      role,
    };
  });
  return [...opened, ...written].toSorted((x, y) =>
    x.day === y.day ? x.label.localeCompare(y.label) : x.day < y.day ? 1 : -1,
  );
}

const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth'];
const ordinal = (n: number): string => ORDINALS[n] ?? `${n}th`;

/** The change of that id or name. */
export async function switchCalled(ask: Ask, name: string): Promise<Switch | undefined> {
  const wanted = name.trim().toLowerCase();
  return (await switches(ask)).find(({ id, label }) =>
    [id.toLowerCase(), label.toLowerCase()].includes(wanted),
  );
}

/** Firings that were packed on that day or later. */
export async function packedFrom(ask: Ask, day: string): Promise<ReadonlySet<string>> {
  const found = await ask.query<{ firing: string }>('SELECT firing FROM packings WHERE day >= ?', [day]);
  return new Set(found.map(({ firing }) => firing));
}
