/** What to do today: what can be packed, what cannot and why, and what to print or make for it. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { type ItemRow, readItems } from './shop-settings.ts';

interface Open {
  order: string;
  number: string;
  line: string;
  item: string;
  quantity: number;
  placed: string;
  promise: string;
  country: string;
  buyer: string;
  addressed: number;
  came: number;
  again: number;
  download: number;
}

export type TodayState = 'pack' | 'short' | 'ask';

interface Judged {
  readonly state: TodayState;
  readonly why: string;
  /** Missing to pack the whole line. */
  readonly missing: number;
}

/** Hands out the stock in the order of the promised days. */
class Shelf {
  readonly #left = new Map<string, number>();

  constructor(private readonly items: ReadonlyMap<string, ItemRow>) {
    for (const [item, { stock }] of items) this.#left.set(item, Math.max(0, stock));
  }

  judge(open: Open): Judged {
    const item = this.items.get(open.item);
    const question = questionOn(open, item);
    if (question) return { state: 'ask', why: question, missing: 0 };
    if (open.download) return { state: 'pack', why: 'a file: hand out the link', missing: 0 };
    const left = this.#left.get(open.item) ?? 0;
    if (left >= open.quantity) {
      this.#left.set(open.item, left - open.quantity);
      return { state: 'pack', why: open.again ? 'to be sent again' : '', missing: 0 };
    }
    /* What is left stays for smaller lines that are promised later: half a line cannot be packed. */
    return { state: 'short', why: shortWhy(item!, open.quantity, left), missing: open.quantity - left };
  }
}

function questionOn(open: Open, item: ItemRow | undefined): string | undefined {
  if (open.came) return 'the shop says it is different now: take it over or leave it as it is';
  if (!open.download && !open.addressed) return 'there is no address';
  if (!item) return 'the item is not known';
  if (open.download && !(item.facts.file ?? item.facts.paper)) return 'the file to hand out is missing';
  if (!open.download && !item.counted) return 'it has not been counted how many are in stock';
  return undefined;
}

function shortWhy({ kind, name, stock }: ItemRow, wanted: number, left: number): string {
  if (kind === 'pot') return 'this one piece is in another parcel';
  const there =
    stock <= 0
      ? 'none in stock'
      : left <= 0
        ? `${stock} in stock, promised to earlier orders`
        : `${left} left in stock`;
  const make = kind === 'template' ? 'print' : 'make';
  return `${there}, ${wanted} wanted: ${make} ${wanted - left} ${name}`;
}

/** Every line that is open, with whether it can go. */
export async function todayLines(ask: Ask) {
  const items = await readItems(ask);
  const open = await ask.query<Open>(
    `SELECT order_key AS "order", number, line, item, quantity, placed, promise, country, buyer, addressed, came, again, download
     FROM open_lines ORDER BY promise, placed, order_key, line`,
  );
  const shelf = new Shelf(items);
  return open.map((line) => {
    const { state, why, missing } = shelf.judge(line);
    return {
      order: line.number,
      item: items.get(line.item)?.name ?? line.item,
      quantity: line.quantity,
      promise: line.promise,
      state,
      why,
      key: line.order,
      line: line.line,
      handle: line.item,
      missing,
      country: line.country,
      buyer: line.buyer,
      late: line.promise < ask.today,
    };
  });
}
export type TodayLine = Awaited<ReturnType<typeof todayLines>>[number];

async function run(ask: Ask): Promise<Answered> {
  const rows = await todayLines(ask);
  return {
    sentence: sentence(rows, ask.today),
    rows,
    notes: [],
    figures: [
      {
        figure: 'table',
        title: 'Today',
        columns: [
          { field: 'order', label: 'Order', kind: 'text' },
          { field: 'item', label: 'Item', kind: 'text' },
          { field: 'quantity', label: 'How many', kind: 'count' },
          { field: 'promise', label: 'Promised for', kind: 'day' },
          { field: 'state', label: 'State', kind: 'code' },
          { field: 'why', label: 'Why', kind: 'text' },
        ],
      },
    ],
    more: { batches: batches(rows), make: toMake(rows), buyers: severalOrders(rows) },
  };
}

const lines = (count: number): string => (count === 1 ? '1 line' : `${count} lines`);

function sentence(rows: readonly TodayLine[], today: string): string {
  if (rows.length === 0) return 'Nothing waits to be packed.';
  const of = (state: TodayState) => rows.filter((row) => row.state === state).length;
  const late = rows.filter((row) => row.promise < today).length;
  const due = rows.filter((row) => row.promise === today).length;
  const parts = [
    of('pack') > 0 ? `${lines(of('pack'))} can be packed` : '',
    of('short') > 0 ? `${lines(of('short'))} ${of('short') === 1 ? 'waits' : 'wait'} for stock` : '',
    of('ask') > 0 ? `${lines(of('ask'))} ${of('ask') === 1 ? 'waits' : 'wait'} for an answer` : '',
  ].filter(Boolean);
  const when = [late > 0 ? `${late} past the promised day` : '', due > 0 ? `${due} due today` : ''].filter(
    Boolean,
  );
  return `${parts.join('; ')}${when.length > 0 ? `: ${when.join(', ')}` : ''}.`;
}

/** What goes together by item, for who packs one kind after the other. */
function batches(rows: readonly TodayLine[]) {
  const by = new Map<string, { item: string; name: string; orders: number; quantity: number }>();
  for (const row of rows) {
    if (row.state !== 'pack') continue;
    const batch = by.get(row.handle) ?? { item: row.handle, name: row.item, orders: 0, quantity: 0 };
    by.set(row.handle, { ...batch, orders: batch.orders + 1, quantity: batch.quantity + row.quantity });
  }
  return [...by.values()].sort((a, b) => b.quantity - a.quantity);
}

export function toMake(rows: readonly TodayLine[]) {
  const by = new Map<
    string,
    { item: string; name: string; missing: number; orders: number; first: string }
  >();
  for (const row of rows) {
    if (row.missing === 0) continue;
    const one = by.get(row.handle) ?? {
      item: row.handle,
      name: row.item,
      missing: 0,
      orders: 0,
      first: row.promise,
    };
    by.set(row.handle, { ...one, missing: one.missing + row.missing, orders: one.orders + 1 });
  }
  return [...by.values()].sort((a, b) => (a.first < b.first ? -1 : 1));
}

/** Buyers with more than one open order: they could go together. */
function severalOrders(rows: readonly TodayLine[]) {
  const by = new Map<string, Set<string>>();
  for (const { buyer, key } of rows) by.set(buyer, (by.get(buyer) ?? new Set()).add(key));
  return [...by].filter(([, keys]) => keys.size > 1).map(([buyer, keys]) => ({ buyer, orders: [...keys] }));
}

export const today = report({ title: 'To pack today', input: z.strictObject({}), run });
