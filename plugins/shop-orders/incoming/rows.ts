/** Rows that belong to one order become one order. */
import type { BadCell, ImportRow } from '../../../server/contract/file-import.ts';
import { plainNumber } from '../values.ts';
import { type Column, type OrderRow, readRow } from './row.ts';
import type { SaidOrder, SaidParcel } from './said.ts';

/** What is said once of an order, on any of its rows. */
const ONCE = ['placed', 'promise', 'customer', 'email', 'address', 'postcode', 'country', 'note'] as const;

export interface ReadOrders {
  readonly orders: readonly SaidOrder[];
  readonly bad: readonly BadCell[];
}

export function readOrders(rows: readonly ImportRow[], today: string, home: string): ReadOrders {
  const bad: BadCell[] = [];
  const by = new Map<string, OrderRow[]>();
  const partly = new Set<string>();
  for (const raw of rows) {
    const row = readRow(raw, today, home);
    if (Array.isArray(row)) {
      bad.push(...row);
      if (raw.cells.order) partly.add(plainNumber(raw.cells.order));
      continue;
    }
    const key = plainNumber(row.order);
    const others = by.get(key);
    const clash = others && clashing(others[0]!, row);
    if (clash) {
      bad.push(clash);
      partly.add(key);
    } else if (others) others.push(row);
    else by.set(key, [row]);
  }
  const orders: SaidOrder[] = [];
  for (const [number, of] of by) orders.push(orderOf(number, of, partly.has(number)));
  return { orders, bad };
}

/** Two rows of one order that say different things of it. */
function clashing(first: OrderRow, row: OrderRow): BadCell | undefined {
  for (const column of ONCE) {
    const [there, here] = [first[column], row[column]];
    if (there === undefined || here === undefined || there === here || column === 'note') continue;
    return {
      line: row.at,
      column,
      found: here.replaceAll('\n', ' | ').slice(0, 80),
      expected: `the same as in line ${first.at}, which is of the same order: ${there.replaceAll('\n', ' | ').slice(0, 80)}`,
    };
  }
  return undefined;
}

const first = (rows: readonly OrderRow[], column: Column & keyof OrderRow): string | undefined =>
  rows.map((row) => row[column]).find((value): value is string => typeof value === 'string');

function notesOf(rows: readonly OrderRow[]): string | undefined {
  const notes = [...new Set(rows.flatMap((row) => row.note ?? []))];
  return notes.length > 0 ? notes.join('\n').slice(0, 2_000) : undefined;
}

const defined = <T extends object>(fields: T): T =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;

function orderOf(number: string, rows: readonly OrderRow[], partly: boolean): SaidOrder {
  return defined({
    at: rows[0]!.at,
    number,
    placed: first(rows, 'placed')!,
    promise: first(rows, 'promise'),
    name: first(rows, 'customer'),
    email: first(rows, 'email'),
    address: first(rows, 'address'),
    postcode: first(rows, 'postcode'),
    country: first(rows, 'country'),
    note: notesOf(rows),
    lines: rows.map(({ item, quantity, price }) => defined({ item, quantity, price })),
    parcels: parcelsOf(rows),
    ...(partly ? { partly } : {}),
  });
}

/** Rows posted on one day by one service under one number are one parcel. */
function parcelsOf(rows: readonly OrderRow[]): SaidParcel[] {
  const by = new Map<string, SaidParcel & { lines: number[] }>();
  rows.forEach(({ posted, service, number, arrived, at }, line) => {
    if (!posted) return;
    const key = JSON.stringify(number ?? [posted, service]);
    const parcel = by.get(key);
    if (parcel) parcel.lines.push(line);
    else by.set(key, defined({ posted, service, number, arrived, lines: [line], at }));
  });
  return [...by.values()];
}
