/** What stands before a change and what after it: by a day, or by a change with a name. */
import type { Ask } from '../../server/contract/plugin.ts';
import { dayText } from '../../server/contract/reports/words.ts';
import type { Asked } from './asked.ts';
import { type Fired, firings } from './sums.ts';
import { packedFrom, type Switch } from './switches.ts';

/** One firing's pieces on one side. */
export interface Share {
  readonly firing: string;
  readonly n: number;
  readonly y: number;
  readonly later: boolean;
}

export interface Sides {
  readonly shares: readonly Share[];
  /** First day of the new way. */
  readonly date: string;
  /** 'before 1 March 2026', 'from then on'. */
  readonly before: string;
  readonly after: string;
  /** What asks for the pieces of each side. */
  readonly behind: (later: boolean) => Readonly<Record<string, string>>;
}

export const FILTERS = ['glaze', 'clay', 'schedule', 'kiln'] as const;
export type Filter = (typeof FILTERS)[number];

const dayBefore = (day: string): string =>
  new Date(Date.parse(`${day}T12:00:00Z`) - 86_400_000).toISOString().slice(0, 10);

const earliest = (one: string | undefined, other: string): string => (one && one < other ? one : other);
const latest = (one: string | undefined, other: string): string => (one && one > other ? one : other);

/** All ware, or that of one glaze, clay, schedule or kiln, by the day it was fired. */
export async function byDay(
  ask: Ask,
  of: Asked,
  date: string,
  filter: { by: Filter; key: string } | undefined,
): Promise<Sides> {
  const found = await firings(ask, of, filter ?? { by: 'all', key: '' });
  return {
    shares: found.map((it) => ({ ...it, later: it.day >= date })),
    date,
    before: `before ${dayText(date)}`,
    after: 'from then on',
    behind: (later) => ({
      ...(filter ?? { by: 'all', key: '' }),
      ...(later ? { from: latest(of.from, date) } : { to: earliest(of.to, dayBefore(date)) }),
    }),
  };
}

/** Ware of the clay, by whether it was begun once the batch was open. */
async function byBatch(ask: Ask, of: Asked, { of: clay, day, label }: Switch): Promise<Sides> {
  const found = await firings(ask, of, { by: 'clay-begun', start: `${clay}|` });
  const begun = ({ key }: Fired) => key.slice(clay.length + 1);
  return {
    shares: found.map((it) => ({ ...it, later: begun(it) >= day })),
    date: day,
    before: `begun before ${label} was opened on ${dayText(day)}`,
    after: 'begun from then on',
    behind: (later) => ({
      by: 'clay',
      key: clay,
      ...(later ? { begunFrom: day } : { begunUntil: dayBefore(day) }),
    }),
  };
}

/** Ware of that schedule, or all where it is a new one, by whether the kiln was packed from that day on. */
async function bySchedule(ask: Ask, of: Asked, { kind, of: id, day, label, role }: Switch): Promise<Sides> {
  const bisque = role === 'bisque';
  const all = kind === 'first-use';
  const name = bisque ? 'bisque-schedule' : 'schedule';
  const wanted = all ? { by: bisque ? 'all-bisque' : 'all', key: '' } : { by: name, key: id };
  const [found, packed] = await Promise.all([firings(ask, of, { ...wanted, bisque }), packedFrom(ask, day)]);
  const kilns = bisque ? 'bisque kilns' : 'kilns';
  return {
    shares: found.map((it) => ({ ...it, later: packed.has(it.firing) })),
    date: day,
    before: `in ${kilns} packed before ${label} (${dayText(day)})`,
    after: 'in those packed from then on',
    behind: (later) => ({
      ...wanted,
      ...(later ? { packedFrom: day } : { packedUntil: dayBefore(day) }),
    }),
  };
}

export const bySwitch = (ask: Ask, of: Asked, it: Switch): Promise<Sides> =>
  it.kind === 'batch' ? byBatch(ask, of, it) : bySchedule(ask, of, it);
