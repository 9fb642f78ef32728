/** Days in the post, as they are known: arrived, lost, only assumed to have arrived, still on the way. */
import type { Ask } from '../../../server/contract/plugin.ts';
import type { Outcome } from '../../../server/contract/statistics/aalen-johansen.ts';
import { kaplanMeier, type Observed, type Step } from '../../../server/contract/statistics/kaplan-meier.ts';
import { dayAfter, daysBetween } from '../days.ts';
import { type Period, summed, within } from './period.ts';

export interface Transit {
  readonly observed: Observed[];
  readonly outcomes: Outcome[];
  lost: number;
  arrived: number;
}

const empty = (): Transit => ({ observed: [], outcomes: [], lost: 0, arrived: 0 });

/** What no longer is on the way; an arrival that is only assumed is none. */
const ENDS: ReadonlySet<string> = new Set(['arrived', 'lost', 'came-back']);

interface Ended {
  country: string;
  days: number;
  outcome: string;
  parcels: number;
}

interface Way {
  country: string;
  posted: string;
  parcels: number;
}

/**
 * By country. Parcels on the way and arrivals only assumed were last seen then and are censored; what was
 * lost or came back will not arrive, and is an end of its own.
 */
export async function transitOf(ask: Ask, period: Period): Promise<Map<string, Transit>> {
  const ended = await summed<Ended>(ask, 'transit', ['country', 'days', 'outcome'], ['parcels'], period);
  const { where, params } = within('placed', period);
  /* Longer on the way than the last that came to an end: at risk to the last, however long. So the many of
     which nobody ever says anything are one row for each country, and the estimates are the same. */
  const longest = ended.reduce(
    (most, { days, outcome }) => (ENDS.has(outcome) ? Math.max(most, days) : most),
    0,
  );
  const longAgo = dayAfter(ask.today, -longest - 1);
  const onWay = await ask.query<Way>(
    `SELECT country, max(posted, ?1) AS posted, sum(parcels) AS parcels FROM on_the_way
     WHERE ${where.replace('? AND ?', '?2 AND ?3')} GROUP BY country, max(posted, ?1)`,
    [longAgo, ...params],
  );
  const by = new Map<string, Transit>();
  const at = (country: string): Transit => {
    let transit = by.get(country);
    if (!transit) {
      transit = empty();
      by.set(country, transit);
    }
    return transit;
  };
  for (const row of ended) add(at(row.country), row.days, row.outcome, row.parcels);
  for (const { country, posted, parcels } of onWay)
    add(at(country), Math.max(0, daysBetween(posted, ask.today)), 'on the way', parcels);
  return by;
}

function add(transit: Transit, time: number, outcome: string, count: number): void {
  const arrived = outcome === 'arrived';
  transit.observed.push({ time, ended: arrived ? count : 0, censored: arrived ? 0 : count });
  const end = ENDS.has(outcome) ? outcome : null;
  transit.outcomes.push({ time, end, count });
  if (outcome === 'lost') transit.lost += count;
  if (arrived) transit.arrived += count;
}

export function together(all: Iterable<Transit>): Transit {
  const whole = empty();
  for (const one of all) {
    whole.observed.push(...one.observed);
    whole.outcomes.push(...one.outcomes);
    whole.lost += one.lost;
    whole.arrived += one.arrived;
  }
  return whole;
}

export const curveOf = (transit: Transit): Step[] => kaplanMeier(transit.observed);
