/** What is declared of a parcel: things that are alike in one line, money of each currency by itself. */
import { plainAmount } from '../../../server/contract/money.ts';
import { countryName } from '../post/countries.ts';
import type { PaperAsked, PaperLine, PaperParcel } from './asked.ts';

export interface DeclaredLine {
  readonly what: string;
  /** kg to the gram; empty where it is not known. */
  readonly weight: string;
  readonly value: string;
  readonly hs: string;
  readonly origin: string;
}

export interface Declared {
  readonly order: string;
  readonly number?: string;
  readonly from: readonly string[];
  readonly to: readonly string[];
  readonly country: string;
  readonly lines: readonly DeclaredLine[];
  readonly total: string;
  readonly gross: string;
}

/** What the parcel is worth, by currency, in minor units. */
export function worthOf(lines: readonly PaperLine[]): Map<string, number> {
  const worth = new Map<string, number>();
  for (const { price, quantity } of lines)
    if (price) worth.set(price.currency, (worth.get(price.currency) ?? 0) + price.amount * quantity);
  return worth;
}

const kilos = (grams: number | undefined): string => (grams === undefined ? '' : (grams / 1000).toFixed(3));
const amountOf = (amount: number, currency: string): string => `${plainAmount(amount, currency)} ${currency}`;

/** Content, HS number and origin, and the currency: what is alike in these is one line. */
const kindOf = ({ name, item, price }: PaperLine): string =>
  JSON.stringify([item?.facts.content ?? name, item?.facts.hs, item?.facts.origin, price?.currency]);

function together(lines: readonly PaperLine[]): DeclaredLine {
  const [{ name, item }] = lines as [PaperLine, ...PaperLine[]];
  const quantity = lines.reduce((sum, it) => sum + it.quantity, 0);
  const weights = lines.map((it) => it.item?.facts.weight && it.item.facts.weight * it.quantity);
  const weight = weights.every((it) => it !== undefined)
    ? weights.reduce((sum: number, it) => sum + it!, 0)
    : undefined;
  const known = lines.every(({ price }) => price !== undefined);
  return {
    what: `${quantity} × ${item?.facts.content ?? name}`,
    weight: kilos(weight),
    value: known ? [...worthOf(lines)].map(([currency, amount]) => amountOf(amount, currency)).join('') : '',
    hs: item?.facts.hs ?? '',
    origin: item?.facts.origin ?? '',
  };
}

export function declaredOf({ parcel, orders, lines }: PaperParcel, { sender }: PaperAsked): Declared {
  const kinds = new Map<string, PaperLine[]>();
  for (const line of lines) {
    const kind = kindOf(line);
    kinds.set(kind, [...(kinds.get(kind) ?? []), line]);
  }
  return {
    order: orders.map(({ order }) => order.number).join(', '),
    ...(parcel.number ? { number: parcel.number } : {}),
    from: sender,
    to: orders[0]!.label,
    country: countryName(parcel.country),
    lines: [...kinds.values()].map(together),
    total: [...worthOf(lines)].map(([currency, amount]) => amountOf(amount, currency)).join(' + '),
    gross: kilos(parcel.weight),
  };
}
