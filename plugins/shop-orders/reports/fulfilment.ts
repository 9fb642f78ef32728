/** Whether orders were posted by their day and arrived, by country. */
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { cumulativeIncidence } from '../../../server/contract/statistics/aalen-johansen.ts';
import {
  kaplanMeier,
  median,
  medianLimits,
  type Observed,
} from '../../../server/contract/statistics/kaplan-meier.ts';
import { wilson } from '../../../server/contract/statistics/wilson.ts';
import { daysBetween } from '../days.ts';
import { countryName } from '../post/countries.ts';
import { type Period, periodInput, summed, within } from './period.ts';
import { curveOf, type Transit, together, transitOf } from './transit.ts';

interface Counted {
  orders: number;
  posted: number;
  onTime: number;
  cancelled: number;
  /** Not posted although the promised day is over. */
  overdue: number;
  toPost: Observed[];
}

interface Sum {
  country: string;
  days: number;
  orders: number;
  posted: number;
  on_time: number;
  cancelled: number;
}

interface Waits {
  country: string;
  placed: string;
  promise: string;
  orders: number;
}

const none = (): Counted => ({ orders: 0, posted: 0, onTime: 0, cancelled: 0, overdue: 0, toPost: [] });

async function countedBy(ask: Ask, period: Period): Promise<Map<string, Counted>> {
  const sums = ['orders', 'posted', 'on_time', 'cancelled'];
  const rows = await summed<Sum>(ask, 'orders', ['country', 'days'], sums, period);
  const { where, params } = within('placed', period);
  const waits = await ask.query<Waits>(
    `SELECT country, placed, promise, sum(orders) AS orders FROM waiting_orders WHERE ${where} GROUP BY country, placed, promise`,
    params,
  );
  const by = new Map<string, Counted>();
  const at = (country: string): Counted => {
    const known = by.get(country) ?? none();
    by.set(country, known);
    return known;
  };
  for (const row of rows) {
    const it = at(row.country);
    it.orders += row.orders - row.cancelled;
    it.posted += row.posted;
    it.onTime += row.on_time;
    it.cancelled += row.cancelled;
    if (row.days >= 0) it.toPost.push({ time: row.days, ended: row.posted, censored: 0 });
  }
  for (const { country, placed, promise, orders } of waits) {
    const it = at(country);
    if (promise < ask.today) it.overdue += orders;
    it.toPost.push({ time: Math.max(0, daysBetween(placed, ask.today)), ended: 0, censored: orders });
  }
  return by;
}

/** The rate of what was posted, and of all whose day is over: what is late and still here was not on time either. */
function rates({ posted, onTime, overdue }: Counted) {
  const { low, high } = wilson({ affected: onTime, pieces: posted });
  const due = posted + overdue;
  const all = wilson({ affected: onTime, pieces: due });
  return {
    onTimeRate: posted === 0 ? null : onTime / posted,
    low,
    high,
    overdue,
    dueRate: due === 0 ? null : onTime / due,
    dueLow: all.low,
    dueHigh: all.high,
  };
}

function days(toPost: readonly Observed[], transit: Transit | undefined) {
  const post = kaplanMeier(toPost);
  const arrive = transit ? curveOf(transit) : [];
  const posting = medianLimits(post);
  const arriving = medianLimits(arrive);
  const shares = transit ? cumulativeIncidence(transit.outcomes) : {};
  return {
    daysToPost: median(post),
    postLow: posting.low,
    postHigh: posting.high,
    daysToArrive: median(arrive),
    arriveLow: arriving.low,
    arriveHigh: arriving.high,
    lost: transit?.lost ?? 0,
    lostRate: shares.lost ?? 0,
    arrived: transit?.arrived ?? 0,
  };
}

const rowOf = (country: string, counted: Counted, transit: Transit | undefined) => ({
  country,
  orders: counted.orders,
  posted: counted.posted,
  onTime: counted.onTime,
  ...rates(counted),
  ...days(counted.toPost, transit),
  cancelled: counted.cancelled,
  name: countryName(country),
});

function wholeOf(all: Iterable<Counted>): Counted {
  const whole = none();
  for (const one of all) {
    whole.orders += one.orders;
    whole.posted += one.posted;
    whole.onTime += one.onTime;
    whole.cancelled += one.cancelled;
    whole.overdue += one.overdue;
    whole.toPost.push(...one.toPost);
  }
  return whole;
}

const inDays = (value: number | null): string =>
  value === null ? 'not known yet' : value === 1 ? '1 day' : `${value} days`;

const per = (rate: number | null): string => (rate === null ? '–' : `${Math.round(rate * 100)} %`);

async function run(ask: Ask, period: Period): Promise<Answered> {
  const counted = await countedBy(ask, period);
  const transit = await transitOf(ask, period);
  const rows = [...counted]
    .map(([country, one]) => rowOf(country, one, transit.get(country)))
    .sort((a, b) => b.orders - a.orders || (a.country < b.country ? -1 : 1));
  const whole = wholeOf(counted.values());
  const all = { ...rates(whole), ...days(whole.toPost, together(transit.values())) };
  return {
    from: period.from ?? null,
    to: period.to ?? null,
    sentence:
      whole.orders === 0
        ? 'No orders in this period.'
        : `${whole.posted} of ${whole.orders} orders were posted, ${per(all.dueRate)} of those due by their day (${per(all.dueLow)} to ${per(all.dueHigh)} is believable). Half are posted within ${inDays(all.daysToPost)} and arrive within ${inDays(all.daysToArrive)} of posting.`,
    rows,
    notes: notesOn(whole, all.lost),
    figures: figures(),
    more: { all: { orders: whole.orders, posted: whole.posted, onTime: whole.onTime, ...all } },
  };
}

function notesOn({ overdue, cancelled }: Counted, lost: number): string[] {
  return [
    ...(overdue > 0
      ? [
          `${overdue} not posted although their day is over: they are not in “on time of those posted”, but count as late in the sentence.`,
        ]
      : []),
    ...(cancelled > 0 ? [`${cancelled} cancelled orders are left out.`] : []),
    ...(lost > 0 ? [`${lost} parcels were lost; they are no arrivals, and are counted apart.`] : []),
    'Days are medians by Kaplan and Meier: what is on the way, or only assumed to have arrived, counts for as long as it has been seen.',
  ];
}

function figures(): Answered['figures'] {
  const label = { field: 'name', label: 'Country', kind: 'text' as const };
  return [
    {
      figure: 'ranking',
      title: 'Posted by the promised day, of those posted',
      label: 'name',
      estimate: { field: 'onTimeRate', label: 'On time', kind: 'rate' },
      low: 'low',
      high: 'high',
      pieces: 'posted',
    },
    {
      figure: 'table',
      title: 'By country',
      columns: [
        label,
        { field: 'orders', label: 'Orders', kind: 'count' },
        { field: 'posted', label: 'Posted', kind: 'count' },
        { field: 'onTime', label: 'On time', kind: 'count', wide: true },
        { field: 'onTimeRate', label: 'On time', kind: 'rate' },
        { field: 'daysToPost', label: 'Days to post', kind: 'number' },
        { field: 'daysToArrive', label: 'Days to arrive', kind: 'number' },
        { field: 'lost', label: 'Lost', kind: 'count' },
      ],
    },
  ];
}

export const fulfilment = report({ title: 'Posted and arrived', input: periodInput, run });
