/** One row of an orders file: each cell read, or what is wrong with it. */
import { failed, type Reading, readText, unfit } from '../../../server/contract/cells/cell.ts';
import { readDay } from '../../../server/contract/cells/dates.ts';
import { type CurrencySigns, currencySigns, readMoney } from '../../../server/contract/cells/money.ts';
import type { BadCell, ImportRow } from '../../../server/contract/file-import.ts';
import { isCurrency } from '../../../server/contract/money.ts';
import { handleOf, type Money } from '../../../server/contract/studio/values.ts';
import { MOST_ADDRESS_LINES } from '../commands/order-input.ts';
import { countryCodes, countryName, isCountry } from '../post/countries.ts';
import { readItemNumber } from '../post/s10.ts';

export const COLUMNS = [
  'order',
  'placed',
  'promise',
  'customer',
  'email',
  'address',
  'postcode',
  'country',
  'item',
  'quantity',
  'price',
  'currency',
  'posted',
  'service',
  'number',
  'arrived',
  'note',
] as const;
export type Column = (typeof COLUMNS)[number];

export interface OrderRow {
  readonly at: number;
  readonly order: string;
  readonly placed?: string;
  readonly promise?: string;
  readonly customer?: string;
  readonly email?: string;
  readonly address?: string;
  readonly postcode?: string;
  readonly country?: string;
  readonly item: string;
  readonly quantity: number;
  readonly price?: Money;
  readonly posted?: string;
  readonly service?: string;
  readonly number?: string;
  readonly arrived?: string;
  readonly note?: string;
}

const MOST_PROMISED = '2200-01-01';
const MOST_QUANTITY = 10_000;

const oneLine =
  (longest: number) =>
  (cell: string): Reading<string> =>
    readText(cell.normalize('NFC').replace(/\s+/g, ' ').trim(), longest);

function readOrder(cell: string): Reading<string> {
  const text = cell.normalize('NFKC').trim();
  return text.length > 60 ? unfit(cell, 'an order’s number of at most 60 characters') : readText(text, 60);
}

function readItem(cell: string): Reading<string> {
  const name = oneLine(120)(cell);
  if (failed(name)) return name;
  return handleOf(name.value) === '' ? unfit(cell, 'an item’s name with a letter or a digit in it') : name;
}

function readQuantity(cell: string): Reading<number> {
  const value = /^\+?\d{1,6}(\.0+)?$/.test(cell) ? Number(cell) : Number.NaN;
  if (value >= 1 && value <= MOST_QUANTITY) return { value };
  return unfit(cell, `a whole number from 1 to ${MOST_QUANTITY.toLocaleString('en-GB')}`);
}

function readEmail(cell: string): Reading<string> {
  return /^[^\s@]+@[^\s@]+$/.test(cell) && cell.length <= 254
    ? { value: cell }
    : unfit(cell, 'an e-mail address like name@example.org');
}

function readAddress(cell: string): Reading<string> {
  const lines = cell
    .split(/\||\r\n|\n|\r/)
    .map((line) => line.normalize('NFC').replace(/\s+/g, ' ').trim())
    .filter(Boolean);
  if (lines.length > MOST_ADDRESS_LINES)
    return unfit(
      cell,
      `at most ${MOST_ADDRESS_LINES} lines of an address, as fit on a label; this has ${lines.length}`,
    );
  return readText(lines.join('\n'), 1_000);
}

let named: Map<string, string> | undefined;

function readCountry(cell: string): Reading<string> {
  const code = cell.toUpperCase();
  if (isCountry(code)) return { value: code };
  named ??= new Map(countryCodes().map((one) => [countryName(one).toLowerCase(), one]));
  const meant = named.get(cell.toLowerCase()) ?? (code === 'UK' ? 'GB' : undefined);
  return unfit(
    cell,
    meant
      ? `a country’s two letters (ISO 3166-1): ${meant} for ${countryName(meant)}`
      : 'a country’s two letters (ISO 3166-1) like GB, JP or NZ',
  );
}

function readNumber(cell: string): Reading<string> {
  const read = readItemNumber(cell);
  return 'wrong' in read
    ? unfit(cell, `an item number that is right. ${read.wrong}`)
    : { value: read.number };
}

const signs = new Map<string, CurrencySigns>();

function readPrice(
  cells: ImportRow['cells'],
  home: string,
): Reading<Money> | { readonly bad: BadOf } | undefined {
  const currency = (cells.currency ?? home).toUpperCase();
  if (cells.price === undefined) return undefined;
  if (!/^[A-Z]{3}$/.test(currency) || !isCurrency(currency))
    return {
      bad: {
        column: 'currency',
        ...unfit(cells.currency ?? '', 'a currency’s three letters (ISO 4217) like GBP or JPY'),
      },
    };
  const known = signs.get(currency) ?? currencySigns(currency);
  signs.set(currency, known);
  const amount = readMoney(cells.price, known);
  return failed(amount) ? amount : { value: { amount: amount.value, currency } };
}

type BadOf = Omit<BadCell, 'line'>;

/** @param today the last day that can have happened */
export function readRow({ line, cells }: ImportRow, today: string, home: string): OrderRow | BadCell[] {
  const bad: BadCell[] = [];
  const row: Record<string, unknown> = { at: line };
  const note = (column: string, { found, expected }: { found: string; expected: string }) =>
    bad.push({ line, column, found: found.length > 80 ? `${found.slice(0, 79)}…` : found, expected });
  const read = <T>(column: Column, reader: (cell: string) => Reading<T>, missing?: string) => {
    const cell = cells[column];
    if (cell === undefined) {
      if (missing !== undefined) note(column, { found: '', expected: missing });
      return;
    }
    const reading = reader(cell);
    if (failed(reading)) note(column, reading);
    else row[column] = reading.value;
  };
  const day = (cell: string) => readDay(cell, today);
  read('order', readOrder, 'the order’s number');
  read('item', readItem, 'what was ordered');
  read('quantity', readQuantity);
  row.quantity ??= cells.quantity === undefined ? 1 : undefined;
  read('placed', day);
  read('promise', (cell) => readDay(cell, MOST_PROMISED));
  read('customer', oneLine(200));
  read('email', readEmail);
  read('address', readAddress);
  read('postcode', oneLine(20));
  read('country', readCountry);
  read('posted', day);
  read('service', oneLine(80));
  read('number', readNumber);
  read('arrived', day);
  read('note', (cell) => readText(cell, 2_000));
  const price = readPrice(cells, home);
  if (price && 'bad' in price) note(price.bad.column, price.bad);
  else if (price && failed(price)) note('price', price);
  else if (price) row.price = price.value;
  if (bad.length === 0) bad.push(...outOfOrder(row as unknown as OrderRow));
  return bad.length > 0 ? bad : (row as unknown as OrderRow);
}

function outOfOrder({ at: line, placed, posted, arrived, number }: OrderRow): BadCell[] {
  if (posted && placed && posted < placed)
    return [
      { line, column: 'posted', found: posted, expected: `a day not before ${placed}, when it was ordered` },
    ];
  if (arrived && !posted)
    return [{ line, column: 'posted', found: '', expected: 'the day it was posted, as it has arrived' }];
  if (arrived && posted && arrived < posted)
    return [
      { line, column: 'arrived', found: arrived, expected: `a day not before ${posted}, when it was posted` },
    ];
  if (number && !posted)
    return [{ line, column: 'posted', found: '', expected: 'the day it was posted, as it has a number' }];
  return [];
}
