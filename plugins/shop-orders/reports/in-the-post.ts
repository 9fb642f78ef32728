/** What is on its way, and what is later than nearly all of its like. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { quantile, type Step, survivalAt } from '../../../server/contract/statistics/kaplan-meier.ts';
import { dayAfter, daysBetween } from '../days.ts';
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
  /** Left to come until this day. */
  given: string | null;
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
function judge(
  days: number,
  like: ReturnType<Likes['of']>,
  askedDaysAgo: number | undefined,
  given = false,
): Judged {
  const heard = like ? 1 - (like.curve.at(-1)?.survival ?? 1) : 0;
  if (!like || heard === 0) return { lateBeyond: null, like: null, advice: 'not known yet', expected: null };
  const lateBeyond = (1 - survivalAt(like.curve, days)) / heard;
  const expected = quantile(like.curve, LATE * heard);
  const late = lateBeyond >= LATE;
  /* The buyer has a while to answer; and it may have been left to come. */
  const waits = !late || given || (askedDaysAgo !== undefined && askedDaysAgo < PATIENCE);
  const advice = waits ? 'wait' : askedDaysAgo === undefined ? 'ask' : 'send again';
  return { lateBeyond, like: like.like, advice, expected };
}

/** When the buyer of each order was last asked whether it has come. */
async function asked(ask: Ask): Promise<Map<string, string>> {
  const rows = await ask.query<{ order: string; day: string }>(
    'SELECT order_key AS "order", max(day) AS day FROM asked GROUP BY order_key',
  );
  return new Map(rows.map(({ order, day }) => [order, day]));
}

async function likesNow(ask: Ask): Promise<Likes> {
  const { origin } = await readFacts(ask);
  return new Likes(await transitOf(ask, {}), origin);
}

/** Parcels to one country posted on one day stand alike, but for whether the buyer was asked, and for time that was given. */
class Judge {
  readonly #known = new Map<string, Judged>();

  constructor(private readonly likes: Likes) {}

  of(country: string, days: number, askedDaysAgo: number | undefined, given: boolean): Judged {
    const key = `${country} ${days} ${askedDaysAgo ?? ''} ${given}`;
    const known = this.#known.get(key) ?? judge(days, this.likes.of(country), askedDaysAgo, given);
    this.#known.set(key, known);
    return known;
  }
}

/** Days since the buyer was asked, where that was after it was posted. */
const askedAgo = (ask: Ask, last: string | undefined, posted: string): number | undefined =>
  last === undefined || last < posted ? undefined : daysBetween(last, ask.today);

const isGiven = (ask: Ask, until: string | null): boolean => until !== null && until > ask.today;

/** The oldest of those that are later than nearly all of their like, and how many there are. */
export async function latest(ask: Ask, most: number) {
  const likes = await likesNow(ask);
  const there = await ask.query<{ country: string }>('SELECT DISTINCT country FROM on_the_way');
  const since = there.flatMap(({ country }) => {
    const { expected } = judge(0, likes.of(country), undefined);
    return expected === null ? [] : [[country, dayAfter(ask.today, -expected)] as const];
  });
  const late = JSON.stringify(Object.fromEntries(since));
  const isLate = "p.state = 'posted' AND late.key = p.country AND p.posted <= late.value";
  /* Asked lately, or left to come. */
  const leftAlone = `SELECT po.parcel FROM asked AS a JOIN parcel_orders AS po ON po.order_key = a.order_key
    WHERE a.day > ?2 AND a.day <= ?3
    UNION SELECT parcel FROM parcels WHERE given > ?3`;
  const lately = [dayAfter(ask.today, -PATIENCE), ask.today];
  /* The parcels outside, in the order of their index, so that it ends with the first few. */
  const found = await ask.query<OnTheWay>(
    `SELECT p.parcel, p.orders, p.country, p.posted FROM parcels AS p CROSS JOIN json_each(?1) AS late
     WHERE ${isLate} AND p.parcel NOT IN (${leftAlone}) ORDER BY p.posted, p.parcel LIMIT ?4`,
    [late, ...lately, most],
  );
  const [sum] = await ask.query<{ parcels: number | null }>(
    `SELECT sum(parcels) AS parcels FROM on_the_way JOIN json_each(?) AS late ON late.key = country
     WHERE posted <= late.value`,
    [late],
  );
  const [waiting] = await ask.query<{ parcels: number }>(
    `SELECT count(DISTINCT p.parcel) AS parcels FROM (${leftAlone}) AS one JOIN parcels AS p ON p.parcel = one.parcel
     JOIN json_each(?1) AS late WHERE ${isLate}`,
    [late, ...lately],
  );
  const told = await asked(ask);
  const rows = found.map(({ parcel, orders, country, posted }) => {
    const key = orders.split(' ')[0]!;
    const days = daysBetween(posted, ask.today);
    const judged = judge(days, likes.of(country), askedAgo(ask, told.get(key), posted));
    return { parcel, key, country, posted, days, ...judged };
  });
  return { rows, all: (sum?.parcels ?? 0) - (waiting?.parcels ?? 0) };
}

/** How one parcel that is on its way stands beside its like. */
export async function standing(
  ask: Ask,
  { country, posted, key, given }: { country: string; posted: string; key: string; given: string | null },
) {
  const days = daysBetween(posted, ask.today);
  const last = (await asked(ask)).get(key);
  const like = (await likesNow(ask)).of(country);
  const judged = judge(days, like, askedAgo(ask, last, posted), isGiven(ask, given));
  return { days, asked: last ?? null, given, ...judged };
}

async function run(ask: Ask): Promise<Answered> {
  const judging = new Judge(await likesNow(ask));
  const told = await asked(ask);
  const found = await ask.query<OnTheWay>(
    "SELECT parcel, orders, country, posted, number, service, given FROM parcels WHERE state = 'posted' ORDER BY posted, parcel",
  );
  const rows = found.flatMap((one) => {
    const days = daysBetween(one.posted, ask.today);
    return one.orders.split(' ').map((key) => {
      const last = told.get(key);
      return {
        order: key.slice(key.indexOf('/') + 1),
        number: one.number,
        country: one.country,
        posted: one.posted,
        days,
        ...judging.of(one.country, days, askedAgo(ask, last, one.posted), isGiven(ask, one.given)),
        key,
        parcel: one.parcel,
        service: one.service,
        asked: last ?? null,
        given: one.given,
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
      'A parcel can be left to come until a day; until then it is not put forward.',
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
