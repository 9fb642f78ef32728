/** Sales, and postage paid against postage charged: by currency, never added up without a rate of the user's. */
import { z } from 'zod';
import { minorDigits } from '../../../server/contract/money.ts';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { countryName } from '../post/countries.ts';
import type { ShopFacts } from '../shop-facts.ts';
import { periodInput, within } from './period.ts';
import { readFacts, readItems } from './shop-settings.ts';

/** The user's latest rate from one currency to another; the other way round where only that is known. */
export function rateFor(rates: ShopFacts['rates'], of: string, to: string) {
  const known = rates
    .flatMap((rate) => [
      ...(rate.of === of && rate.to === to ? [rate] : []),
      ...(rate.of === to && rate.to === of ? [{ ...rate, rate: 1 / rate.rate }] : []),
    ])
    .sort((a, b) => (a.day < b.day ? 1 : -1));
  return known[0];
}

/** Minor units of `to`; undefined without a rate. */
export function converted(
  amount: number,
  of: string,
  to: string,
  rates: ShopFacts['rates'],
): number | undefined {
  if (of === to) return amount;
  const rate = rateFor(rates, of, to);
  if (!rate) return undefined;
  const units = amount / 10 ** (minorDigits(of) ?? 2);
  return Math.round(units * rate.rate * 10 ** (minorDigits(to) ?? 2));
}

/** Rates that were used, for the notes. */
const ratesUsed = (rates: ShopFacts['rates'], of: readonly string[], to: string): string[] =>
  [...new Set(of)].flatMap((one) => {
    if (one === to || one === '') return [];
    const rate = rateFor(rates, one, to);
    return rate
      ? [`${one} is reckoned at ${rate.rate.toPrecision(4)} ${to}, your rate of ${rate.day}.`]
      : [`There is no rate from ${one} to ${to}, so it stands apart.`];
  });

const salesInput = z.strictObject({
  ...periodInput.shape,
  by: z.enum(['item', 'country', 'month']).default('item'),
});

const KEYS = { item: 'item', country: 'country', month: 'substr(day, 1, 7)' } as const;

async function sales(ask: Ask, { by, ...period }: z.infer<typeof salesInput>): Promise<Answered> {
  const { where, params } = within('day', period);
  const found = await ask.query<{ key: string; currency: string; quantity: number; amount: number }>(
    `SELECT ${KEYS[by]} AS key, currency, sum(quantity) AS quantity, sum(amount) AS amount FROM sales_by_day
     WHERE ${where} GROUP BY 1, currency ORDER BY 1, currency`,
    params,
  );
  const items = await readItems(ask);
  const home = ask.settings.currency;
  const { rates } = await readFacts(ask);
  const rows = found.map((row) => ({
    key: row.key,
    name:
      by === 'item'
        ? (items.get(row.key)?.name ?? row.key)
        : by === 'country'
          ? countryName(row.key)
          : row.key,
    quantity: row.quantity,
    amount: row.currency === '' ? null : row.amount,
    currency: row.currency === '' ? null : row.currency,
    home: row.currency === '' ? null : (converted(row.amount, row.currency, home, rates) ?? null),
  }));
  if (by !== 'month') rows.sort((a, b) => b.quantity - a.quantity);
  return {
    from: period.from ?? null,
    to: period.to ?? null,
    sentence: `${rows.reduce((sum, row) => sum + row.quantity, 0)} things were ordered.`,
    rows,
    notes: ratesUsed(
      rates,
      found.map((row) => row.currency),
      home,
    ),
    figures: [
      {
        figure: 'table',
        title: `Sales by ${by}`,
        columns: [
          {
            field: 'name',
            label: by === 'item' ? 'Item' : by === 'country' ? 'Country' : 'Month',
            kind: 'text',
          },
          { field: 'quantity', label: 'How many', kind: 'count' },
          { field: 'amount', label: 'For', kind: 'money' },
        ],
      },
    ],
  };
}

async function postage(ask: Ask, period: z.infer<typeof periodInput>): Promise<Answered> {
  const { where, params } = within('day', period);
  const paid = await ask.query<{ country: string; currency: string; amount: number; parcels: number }>(
    `SELECT country, currency, sum(amount) AS amount, sum(parcels) AS parcels FROM postage_paid WHERE ${where} GROUP BY country, currency`,
    params,
  );
  const charged = await ask.query<{ country: string; currency: string; amount: number }>(
    `SELECT country, currency, sum(amount) AS amount FROM money_by_day WHERE kind = 'postage' AND ${where} GROUP BY country, currency`,
    params,
  );
  const keys = [
    ...new Set([...paid, ...charged].map(({ country, currency }) => `${country} ${currency}`)),
  ].sort();
  const rows = keys.map((key) => {
    const [country, currency] = key.split(' ') as [string, string];
    const of = <R extends { country: string; currency: string }>(rows: readonly R[]) =>
      rows.find((row) => row.country === country && row.currency === currency);
    const [out, back] = [of(paid), of(charged)];
    return {
      country,
      name: countryName(country),
      currency,
      parcels: out?.parcels ?? 0,
      paid: out?.amount ?? 0,
      charged: back?.amount ?? 0,
      difference: (back?.amount ?? 0) - (out?.amount ?? 0),
    };
  });
  return {
    from: period.from ?? null,
    to: period.to ?? null,
    sentence:
      rows.length === 0
        ? 'No postage was noted.'
        : `Postage to ${new Set(rows.map((row) => row.country)).size} countries.`,
    rows,
    notes: [
      'Paid: by the day of posting. Charged: by the day the order was placed. Currencies are not added up.',
    ],
    figures: [
      {
        figure: 'table',
        title: 'Postage',
        columns: [
          { field: 'name', label: 'Country', kind: 'text' },
          { field: 'parcels', label: 'Parcels', kind: 'count' },
          { field: 'paid', label: 'Paid', kind: 'money' },
          { field: 'charged', label: 'Charged', kind: 'money' },
          { field: 'difference', label: 'Left over', kind: 'money' },
        ],
      },
    ],
  };
}

export const salesReport = report({ title: 'Sales', input: salesInput, run: sales });
export const postageReport = report({ title: 'Postage paid and charged', input: periodInput, run: postage });
