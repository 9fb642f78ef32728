/** From what a file says of orders to the commands that record it. */
import type { BadCell, FileImport, ImportPlan, ImportStep } from '../../../server/contract/file-import.ts';
import type { Look } from '../../../server/contract/look.ts';
import { handleOf } from '../../../server/contract/studio/values.ts';
import { orderStream } from '../commands/placing.ts';
import { itemKind } from '../state/item.ts';
import { type Order, orderKind } from '../state/order.ts';
import { orderKeyOf, type Way } from '../values.ts';
import { Buyers } from './buyers.ts';
import { differences, textsIn } from './differences.ts';
import { parcelSteps } from './parcels.ts';
import { COLUMNS } from './row.ts';
import { readOrders } from './rows.ts';
import type { SaidOrder } from './said.ts';

/** What a new order must say. */
export function missing(said: SaidOrder): BadCell | undefined {
  const need = (column: string, expected: string) => ({ line: said.at, column, found: '', expected });
  if (!said.placed) return need('placed', 'the day the order was placed, like 2026-05-01');
  if (!said.name) return need('customer', 'who ordered it');
  if (!said.country) return need('country', 'the country it goes to, as two letters like GB');
  return undefined;
}

const told = ({ lines }: SaidOrder): string =>
  lines.map(({ item, quantity }) => `${quantity} × ${item}`).join(', ');

/** Input of `order.place`. */
export function placeInput(said: SaidOrder, buyer: string, way: Way): Record<string, unknown> {
  const { number, name, email, address, postcode, country, promise, note, lines, postage } = said;
  return {
    number,
    buyer,
    name,
    country,
    lines,
    ...(email ? { email } : {}),
    ...(address ? { address } : {}),
    ...(postcode ? { postcode } : {}),
    ...(promise ? { promise } : {}),
    ...(note ? { note } : {}),
    ...(postage ? { postage } : {}),
    way,
  };
}

const placing = (said: SaidOrder, key: string, buyer: string): ImportStep => ({
  line: said.at,
  column: 'order',
  found: said.number,
  command: 'order.place',
  input: placeInput(said, buyer, 'file'),
  happenedAt: said.placed,
  group: key,
  knownBy: ['place', key],
  sentence: `Order ${said.number}, placed on ${said.placed}, to ${said.country}: ${told(said)}.`,
});

function changing(said: SaidOrder, order: Order, texts: ReadonlyMap<string, string | null>): ImportStep[] {
  const { input, sentences } = differences(order, said, texts);
  if (sentences.length === 0) return [];
  return [
    {
      line: said.at,
      column: 'order',
      found: said.number,
      command: 'order.change',
      input: { order: order.order, ...input, way: 'file' },
      group: order.order,
      knownBy: ['change', order.order, order.times],
      sentence: `Order ${said.number} is different: ${sentences.join('; ')}.`,
    },
  ];
}

/** A line that has been posted already was ordered by then; any other change is as of now. */
function before(parcels: readonly Pick<ImportStep, 'command' | 'happenedAt'>[]): { happenedAt?: string } {
  const packed = parcels.filter((step) => step.command === 'parcel.pack').map((step) => step.happenedAt!);
  return packed.length === 0 ? {} : { happenedAt: packed.sort()[0]! };
}

/** The order as it will be once it is placed, as far as its parcels need to know. */
const asPlaced = (key: string, said: SaidOrder): Order => ({
  ...orderKind.initial(key),
  number: said.number,
});

export async function planOrders(
  rows: Parameters<FileImport['plan']>[0],
  look: Look,
  again: boolean,
): Promise<ImportPlan> {
  const { orders, bad: unread } = readOrders(rows, look.today, look.settings.currency);
  const bad = [...unread];
  const keys = orders.map((said) => orderKeyOf(said.number));
  const states = await look.states(orderKind, keys);
  const texts = await look.texts([...states.values()].flatMap(textsIn));
  const buyers = new Buyers(look);
  const struck = await look.struckOut('order.placed', keys.map(orderStream));
  const steps: ImportStep[] = [];
  const left: string[] = [];
  let repeated = 0;
  for (const [at, said] of orders.entries()) {
    const key = keys[at]!;
    const state = states.get(key)!;
    const times = struck.get(orderStream(key)) ?? 0;
    if (!state.placed && times > 0 && !again) {
      left.push(said.number);
      continue;
    }
    const lack = state.placed ? undefined : missing(said);
    if (lack) {
      bad.push(lack);
      continue;
    }
    const parcels = parcelSteps(state.placed ? state : asPlaced(key, said), said, look);
    const first = state.placed
      ? changing(said, state, texts).map((step) => ({ ...step, ...before(parcels) }))
      : [placing(said, key, await buyers.of(said, key))];
    steps.push(...[...first, ...parcels.map((step) => ({ ...step, group: key }))].map(anew(times)));
    if (first.length + parcels.length === 0) repeated += said.lines.length;
  }
  return {
    steps,
    bad,
    repeated,
    counts: {
      order: orders.length,
      parcel: orders.reduce((sum, { parcels }) => sum + parcels.length, 0),
    },
    added: { items: await newItems(orders, look) },
    notes: [...notesOn(orders), ...leftOut(left)],
    left,
  };
}

/** After a strike the same is something new to record. */
const anew =
  (times: number) =>
  (step: ImportStep): ImportStep =>
    times === 0 ? step : { ...step, knownBy: [...step.knownBy, 'again', times] };

const leftOut = (left: readonly string[]): string[] =>
  left.length === 0
    ? []
    : [
        `Struck out here before, and left out: ${left.length === 1 ? 'order' : 'orders'} ${left.slice(0, 10).join(', ')}${left.length > 10 ? ` and ${left.length - 10} more` : ''}.`,
      ];

async function newItems(orders: readonly SaidOrder[], look: Look): Promise<string[]> {
  const names = new Map(
    orders.flatMap(({ lines }) => lines.map(({ item }) => [handleOf(item), item] as const)),
  );
  const known = await look.states(itemKind, [...names.keys()]);
  return [...names].flatMap(([item, name]) => (known.get(item)!.facts ? [] : [name]));
}

function notesOn(orders: readonly SaidOrder[]): string[] {
  const partly = orders.filter((said) => said.partly).map((said) => said.number);
  return partly.length === 0
    ? []
    : [
        `Some rows could not be read of ${partly.length === 1 ? 'order' : 'orders'} ${partly.slice(0, 10).join(', ')}: put them right and import the file again, and what is missing is added.`,
      ];
}

export const ordersFile: FileImport = {
  title: 'Orders',
  columns: COLUMNS,
  needed: [['order'], ['item']],
  plan: planOrders,
};
