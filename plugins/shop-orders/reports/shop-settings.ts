/** The shop's settings and tariffs, as a report reads them. */
import type { Ask } from '../../../server/contract/plugin.ts';
import type { TariffFacts } from '../post/tariff-facts.ts';
import { type ShopFacts, UNTIL_SAID } from '../shop-facts.ts';
import type { ItemFacts } from '../values.ts';

export async function readFacts(ask: Ask): Promise<ShopFacts> {
  const [row] = await ask.query<{ facts: string }>('SELECT facts FROM shop');
  return row ? (JSON.parse(row.facts) as ShopFacts) : UNTIL_SAID;
}

export async function readTariffs(ask: Ask): Promise<TariffFacts[][]> {
  const rows = await ask.query<{ versions: string }>('SELECT versions FROM tariffs ORDER BY tariff');
  return rows.map(({ versions }) => JSON.parse(versions) as TariffFacts[]);
}

export interface ItemRow {
  readonly item: string;
  readonly name: string;
  readonly kind: string;
  readonly stock: number;
  readonly counted: number;
  readonly made: number;
  readonly gone: number;
  readonly broken: number;
  readonly found: number;
  readonly facts: ItemFacts;
}

export async function readItems(ask: Ask): Promise<Map<string, ItemRow>> {
  const rows = await ask.query<Omit<ItemRow, 'facts'> & { facts: string }>(
    'SELECT item, name, kind, stock, counted, made, gone, broken, found, facts FROM items ORDER BY name',
  );
  return new Map(rows.map((row) => [row.item, { ...row, facts: JSON.parse(row.facts) as ItemFacts }]));
}

/** What is ordered of each item and not yet packed. */
export async function owed(ask: Ask): Promise<Map<string, number>> {
  const rows = await ask.query<{ item: string; quantity: number }>(
    'SELECT item, sum(quantity) AS quantity FROM open_lines WHERE download = 0 GROUP BY item',
  );
  return new Map(rows.map(({ item, quantity }) => [item, quantity]));
}
