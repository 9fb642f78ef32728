/** What is on its way, and what is later than nearly all of its like. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { quantile, type Step, survivalAt } from '../../../server/contract/statistics/kaplan-meier.ts';
import { daysBetween } from '../days.ts';
import { countryName } from '../post/countries.ts';
import { readFacts } from './shop-settings.ts';
import { curveOf, type Transit, together, transitOf } from './transit.ts';

/** A parcel that is later than this share of its like is put forward. */
export const LATE = 0.95;
/** With fewer arrivals a country is too little known, and all countries but home are taken together. */
const FEWEST = 8;
/** Days after asking until it is time to send again. */
const PATIENCE = 14;

interface OnTheWay {
  parcel: string;
  orders: string;
  country: string;
  posted: string;
  number: string | null;
  service: string | null;
}

/** The curves that a parcel is held against. */
class Likes {
  readonly #own = new Map<string, Step[]>();
  readonly #all: Step[];
  readonly #few: boolean;

  constructor(transit: ReadonlyMap<string, Transit>, origin: string | undefined) {
    for (const [country, one] of transit) if (one.arrived >= FEWEST) this.#own.set(country, curveOf(one));
    const abroad = together([...transit].filter(([country]) => country !== origin).map(([, one]) => one));
    this.#all = curveOf(abroad);
    this.#few = abroad.arrived < FEWEST;
  }

  of(country: string): { curve: Step[]; like: string } | undefined {
    const own = this.#own.get(country);
    if (own) return { curve: own, like: countryName(country) };
    return this.#few ? undefined : { curve: this.#all, like: 'all countries' };
  }
}

interface Judged {
  readonly lateBeyond: number | null;
  readonly like: string | null;
  readonly advice: 'wait' | 'ask' | 'send again' | 'not known yet';
  readonly expected: number | null;
}

/**
 * Of those that were heard of at all: some buyers never say that it has come, so that the curve ends above
 * nought, and what is late is late beside those that did say so.
 */
function judge(days: number, like: ReturnType<Likes['of']>, askedDaysAgo: number | undefined): Judged {
  const heard = like ? 1 - (like.curve.at(-1)?.survival ?? 1) : 0;
  if (!like || heard === 0) return { lateBeyond: null, like: null, advice: 'not known yet', expected: null };
  const lateBeyond = (1 - survivalAt(like.curve, days)) / heard;
  const expected = quantile(like.curve, LATE * heard);
  const late = lateBeyond >= LATE;
  const advice = !late
    ? 'wait'
    : askedDaysAgo !== undefined && askedDaysAgo >= PATIENCE
      ? 'send again'
      : 'ask';
  return { lateBeyond, like: like.like, advice, expected };
}

/** When the buyer of each order was last asked whether it has come. */
async function asked(ask: Ask): Promise<Map<string, string>> {
  const rows = await ask.query<{ order: string; day: string }>(
    'SELECT order_key AS "order", max(day) AS day FROM asked GROUP BY order_key',
  );
  return new Map(rows.map(({ order, day }) => [order, day]));
}

async function run(ask: Ask): Promise<Answered> {
  const { origin } = await readFacts(ask);
  const likes = new Likes(await transitOf(ask, {}), origin);
  const told = await asked(ask);
  const found = await ask.query<OnTheWay>(
    "SELECT parcel, orders, country, posted, number, service FROM parcels WHERE state = 'posted' ORDER BY posted, parcel",
  );
  const rows = found.flatMap((one) => {
    const days = daysBetween(one.posted, ask.today);
    return one.orders.split(' ').map((key) => {
      const last = told.get(key);
      const since = last === undefined || last < one.posted ? undefined : daysBetween(last, ask.today);
      return {
        order: key.slice(key.indexOf('/') + 1),
        number: one.number,
        country: one.country,
        posted: one.posted,
        days,
        ...judge(days, likes.of(one.country), since),
        key,
        parcel: one.parcel,
        service: one.service,
        asked: last ?? null,
      };
    });
  });
  rows.sort((a, b) => (b.lateBeyond ?? -1) - (a.lateBeyond ?? -1) || b.days - a.days);
  const late = rows.filter((row) => row.advice === 'ask' || row.advice === 'send again').length;
  return {
    sentence:
      rows.length === 0
        ? 'Nothing is in the post.'
        : `${rows.length} in the post; ${late === 0 ? 'none is' : late === 1 ? 'one is' : `${late} are`} later than 95 in 100 of the like.`,
    rows,
    notes: [
      `A parcel is held against those to the same country where at least ${FEWEST} have arrived, otherwise against all that went abroad.`,
      'Of those that were heard of: what only has been assumed to have arrived says nothing of when.',
      `Ask the buyer first; ${PATIENCE} days after asking it is time to send again or pay back.`,
    ],
    figures: [
      {
        figure: 'table',
        title: 'In the post',
        columns: [
          { field: 'order', label: 'Order', kind: 'text' },
          { field: 'number', label: 'Number', kind: 'text' },
          { field: 'country', label: 'To', kind: 'text' },
          { field: 'posted', label: 'Posted', kind: 'day' },
          { field: 'days', label: 'Days', kind: 'count' },
          { field: 'lateBeyond', label: 'Had arrived by now', kind: 'rate' },
          { field: 'advice', label: 'What to do', kind: 'text' },
        ],
      },
    ],
  };
}

export const inThePost = report({ title: 'In the post', input: z.strictObject({}), run });
