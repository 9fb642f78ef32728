/** Which parcels papers are asked for, and what is in them. */
import { z } from 'zod';
import { type Ask, PaperRefused } from '../../../server/contract/plugin.ts';
import type { Money } from '../../../server/contract/studio/values.ts';
import { type Addressed, addressed } from '../reports/addressed.ts';
import { type ItemRow, readFacts, readItems } from '../reports/shop-settings.ts';
import type { ShopFacts } from '../shop-facts.ts';
import { type Parcel, parcelKind } from '../state/parcel.ts';

const MOST = 500;

const some = z.string().max(40_000);

/** Ids with commas, or one; without any, all that are packed and not posted. */
export const parcelsAsked = {
  parcel: some.optional(),
  parcels: z
    .string()
    .optional()
    .transform(
      (text) =>
        text
          ?.split(',')
          .map((id) => id.trim())
          .filter(Boolean) ?? [],
    ),
};

export interface PaperLine {
  readonly name: string;
  readonly quantity: number;
  readonly order: string;
  readonly item?: ItemRow;
  /** Of one. */
  readonly price?: Money;
}

export interface PaperParcel {
  readonly parcel: Parcel;
  readonly orders: readonly Addressed[];
  readonly lines: readonly PaperLine[];
}

export interface PaperAsked {
  readonly parcels: readonly PaperParcel[];
  readonly facts: ShopFacts;
  /** Name and address of who sends it; empty where it is not set. */
  readonly sender: readonly string[];
}

export async function readParcels(
  ask: Ask,
  { parcel, parcels: several }: { parcel?: string | undefined; parcels: readonly string[] },
): Promise<PaperAsked> {
  const facts = await readFacts(ask);
  const items = await readItems(ask);
  const ids = parcel ? [parcel, ...several] : several;
  const asked = ids.length > 0 ? ids : await packed(ask);
  if (asked.length === 0) throw new PaperRefused('No parcel is packed and waiting to be posted.', 'parcels');
  if (asked.length > MOST) throw new PaperRefused(`At most ${MOST} parcels at once.`, 'parcels');
  const parcels: PaperParcel[] = [];
  for (const id of asked) {
    const parcel = await ask.state(parcelKind, id);
    if (parcel.state === 'none') throw new PaperRefused(`There is no parcel ${id}.`, 'parcels');
    const keys = [...new Set(parcel.contents.map((it) => it.order))];
    const orders = await addressed(ask, keys, facts.origin);
    parcels.push({ parcel, orders, lines: linesOf(parcel, orders, items) });
  }
  const sender = facts.sender && (await ask.texts([facts.sender])).get(facts.sender.text);
  return { parcels, facts, sender: sender ? sender.split('\n') : [] };
}

async function packed(ask: Ask): Promise<string[]> {
  const rows = await ask.query<{ parcel: string }>(
    "SELECT parcel FROM parcels WHERE state = 'packed' ORDER BY promise, packed, parcel",
  );
  return rows.map(({ parcel }) => parcel);
}

const linesOf = (
  parcel: Parcel,
  orders: readonly Addressed[],
  items: ReadonlyMap<string, ItemRow>,
): PaperLine[] =>
  parcel.contents.map(({ order: key, line: id, item, quantity }) => {
    const order = orders.find((one) => one.order.order === key)!.order;
    const price = order.lines.find((one) => one.line === id)?.price;
    const known = items.get(item);
    return {
      name: known?.name ?? item,
      quantity,
      order: order.number,
      ...(known ? { item: known } : {}),
      ...(price ? { price } : {}),
    };
  });
