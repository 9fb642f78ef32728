/**
 * Orders fetched from a shop as JSON: pages of `{ "orders": […], "next": "https://…" }`, see the README.
 * Each of its lines is read like a row of a file, so that both say the same of what is wrong.
 */
import { z } from 'zod';
import type { ImportRow } from '../../../server/contract/file-import.ts';
import {
  NoAnswer,
  type PluginJob,
  type Received,
  type Went,
  type Work,
} from '../../../server/contract/job.ts';
import { orderStream } from '../commands/placing.ts';
import { Buyers } from '../incoming/buyers.ts';
import { differences, textsIn } from '../incoming/differences.ts';
import { missing, placeInput } from '../incoming/plan.ts';
import { readOrders } from '../incoming/rows.ts';
import type { SaidOrder } from '../incoming/said.ts';
import { type Order, orderKind } from '../state/order.ts';
import { orderKeyOf } from '../values.ts';

const text = z.union([z.string(), z.number()]).transform(String).nullish();
const line = z.looseObject({ item: z.string(), quantity: text, price: text, currency: text });
const shape = z.looseObject({
  orders: z.array(
    z.looseObject({
      number: z.union([z.string(), z.number()]).transform(String),
      placed: text,
      promise: text,
      customer: text,
      email: text,
      address: text,
      postcode: text,
      country: text,
      note: text,
      cancelled: z.boolean().optional(),
      lines: z.array(line).min(1),
    }),
  ),
  next: z.string().nullish(),
});
type Page = z.infer<typeof shape>;

const MOST_PAGES = 200;
/** Seconds until the next try after something that passes. */
const SOON = 300;

/** What went wrong on the way, as the end of this time. */
class Broken extends Error {
  constructor(readonly went: Went) {
    super(went.sentence);
  }
}

const broken = (sentence: string, again?: number) =>
  new Broken({ sentence, failed: true, ...(again === undefined ? {} : { again }) });

/** Seconds or a day with time (RFC 9110, 10.2.3). */
function retryAfter(answer: Received, now: Date): number {
  const said = answer.header('retry-after') ?? '';
  const seconds = /^\d{1,6}$/.test(said) ? Number(said) : (Date.parse(said) - now.getTime()) / 1000;
  return Number.isFinite(seconds) && seconds > 0 ? Math.ceil(seconds) : SOON;
}

async function page(work: Work, address: string, key: string | undefined): Promise<Page> {
  const headers = { accept: 'application/json', ...(key ? { authorization: `Bearer ${key}` } : {}) };
  const answer = await work.get!(address, { headers }).catch((error: unknown) => {
    if (error instanceof NoAnswer) throw broken(`The shop gave no answer: ${error.message}`, SOON);
    throw error;
  });
  if (answer.status === 429)
    throw broken('The shop asks to wait before it is asked again.', retryAfter(answer, work.now));
  if (answer.status === 401 || answer.status === 403)
    throw broken('The shop does not accept the key; look at it in the settings.');
  if (answer.status >= 500)
    throw broken(`The shop has a fault of its own (${answer.status}).`, retryAfter(answer, work.now));
  if (answer.status !== 200) throw broken(`The shop answered with ${answer.status}; look at the address.`);
  let body: unknown;
  try {
    body = JSON.parse(answer.text);
  } catch {
    throw broken('What the shop sent is no JSON; it may have been cut short.', SOON);
  }
  const read = shape.safeParse(body);
  if (read.success) return read.data;
  const { path, message } = read.error.issues[0]!;
  throw broken(`What the shop sent is not as it should be: ${path.join('.')}: ${message}.`);
}

function rowsOf({ orders }: Page, from: number): ImportRow[] {
  let at = from;
  return orders.flatMap((order) =>
    order.lines.map((one) => {
      const { lines: _, cancelled: __, number, ...rest } = order;
      const cells = Object.entries({
        ...rest,
        order: number,
        item: one.item,
        quantity: one.quantity,
        price: one.price,
        currency: one.currency,
      });
      const said = cells.filter(
        (cell): cell is [string, string] => typeof cell[1] === 'string' && cell[1].trim() !== '',
      );
      return { line: ++at, cells: Object.fromEntries(said.map(([column, cell]) => [column, cell.trim()])) };
    }),
  );
}

interface Tally {
  placed: number;
  different: number;
  /** Struck out here before: a timer does not bring them back. */
  left: number;
  readonly wrong: string[];
}

/** An order that stands twice on a page is what it says the last time. */
const once = (page: Page): Page => ({
  ...page,
  orders: [...new Map(page.orders.map((one) => [orderKeyOf(one.number), one])).values()],
});

const OF_BUYERS = new Set(['customer', 'email', 'address', 'postcode', 'note']);

async function take(work: Work, sent: Page, tally: Tally): Promise<void> {
  const found = once(sent);
  const { orders, bad } = readOrders(rowsOf(found, 0), work.today, work.settings.currency);
  const gone = new Set(found.orders.filter((one) => one.cancelled).map((one) => orderKeyOf(one.number)));
  /* How it went is kept outside the erasable store, so it says nothing of a buyer. */
  for (const { column, found: cell, expected } of bad)
    tally.wrong.push(`${column}${OF_BUYERS.has(column) ? '' : ` “${cell}”`}: expected ${expected}`);
  const keys = orders.map((said) => orderKeyOf(said.number));
  const states = await work.states(orderKind, keys);
  const struck = await work.struckOut('order.placed', keys.map(orderStream));
  const texts = await work.texts([...states.values()].flatMap(textsIn));
  const buyers = new Buyers(work);
  for (const [n, said] of orders.entries()) {
    const state = states.get(keys[n]!)!;
    if (!state.placed && struck.has(orderStream(keys[n]!))) tally.left++;
    else await takeOne(work, said, state, gone.has(keys[n]!), texts, buyers, tally);
  }
}

async function takeOne(
  work: Work,
  said: SaidOrder,
  order: Order,
  cancelled: boolean,
  texts: ReadonlyMap<string, string | null>,
  buyers: Buyers,
  tally: Tally,
): Promise<void> {
  const key = order.order;
  if (!order.placed) {
    const lack = missing(said);
    if (cancelled) return;
    if (lack) {
      tally.wrong.push(`order ${said.number}: expected ${lack.expected}`);
      return;
    }
    const input = placeInput(said, await buyers.of(said, key), 'feed');
    const why = await work.record({
      command: 'order.place',
      input,
      happenedAt: said.placed,
      knownBy: ['place', key],
    });
    if (why) tally.wrong.push(`order ${said.number}: ${why}`);
    else tally.placed++;
    return;
  }
  const news = cancelled && !order.cancelledAt && !order.came?.cancelled ? { cancelled: true } : {};
  const { input } = differences(order, said, texts);
  if (Object.keys({ ...input, ...news }).length === 0) return;
  const why = await work.record({
    command: 'order.note-change',
    input: { order: key, ...input, ...news, way: 'feed' },
    knownBy: ['change', key, order.times],
  });
  if (why) tally.wrong.push(`order ${said.number}: ${why}`);
  else tally.different++;
}

async function run(work: Work): Promise<Went> {
  const first = work.secret?.('feed-address');
  if (!first || !work.get) return { sentence: 'No shop is set up to be asked.' };
  const tally: Tally = { placed: 0, different: 0, left: 0, wrong: [] };
  const seen = new Set<string>();
  try {
    for (let address: string | undefined = first; address && !seen.has(address) && seen.size < MOST_PAGES; ) {
      seen.add(address);
      const found: Page = await page(work, address, work.secret?.('feed-key'));
      await take(work, found, tally);
      address = found.next ? new URL(found.next, address).href : undefined;
      /* The key is for that shop only. */
      if (address && new URL(address).origin !== new URL(first).origin)
        throw broken('The shop sends on to another address than its own; that is not followed.');
    }
  } catch (error) {
    if (!(error instanceof Broken)) throw error;
    const taken = tally.placed + tally.different + tally.wrong.length > 0 ? ` ${told(tally)}` : '';
    return { ...error.went, sentence: `${error.went.sentence}${taken}` };
  }
  return { sentence: told(tally), ...(tally.wrong.length > 0 ? { failed: true } : {}) };
}

function told({ placed, different, left, wrong }: Tally): string {
  const more = wrong.length > 0 ? ` Not taken: ${wrong.slice(0, 5).join('; ')}.` : '';
  const fresh = placed === 1 ? '1 new order' : `${placed || 'no'} new orders`;
  const changed =
    different === 1 ? '1 that is different now' : `${different || 'none'} that are different now`;
  const struck =
    left > 0
      ? ` ${left} ${left === 1 ? 'was' : 'were'} struck out here and ${left === 1 ? 'is' : 'are'} left out.`
      : '';
  return `${sentenceOf(`${fresh}, ${changed}`)}.${struck}${more}`;
}
const sentenceOf = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const fetchOrders: PluginJob = {
  title: 'Fetch orders from the shop',
  about: 'New orders are taken down; one that is different now waits for you to look at it.',
  every: 15,
  takes: [
    {
      name: 'feed-address',
      kind: 'address',
      label: 'Address of the orders',
      hint: 'Where your shop lists them as JSON. It begins with https://.',
    },
    {
      name: 'feed-key',
      kind: 'key',
      label: 'Key',
      hint: 'What the shop gave you for it. It is sent to that shop only, and is in no record, copy or table.',
    },
  ],
  run,
};
