/** Which rows of the shop's tables a parcel, an item and the shop's own streams stand for; an order's are in order-list.ts. */
import { projection, type Row } from '../../server/contract/plugin.ts';
import { daysBetween } from './days.ts';
import type { Item } from './state/item.ts';
import type { Parcel } from './state/parcel.ts';
import type { Download, Shop, Tariff } from './state/shop.ts';
import * as tables from './tables.ts';

type Rows = Readonly<Record<string, readonly Row[]>>;

const ENDS = ['arrived', 'assumed', 'lost', 'came-back'];

function transit(parcel: Parcel): Rows {
  const { postedOn: posted, endedOn: ended, state, country, placed } = parcel;
  if (!posted) return {};
  if (state === 'posted') return { on_the_way: [{ country, placed, posted, parcels: 1 }] };
  if (!ENDS.includes(state)) return {};
  const row = { country, days: Math.max(0, daysBetween(posted, ended!)), outcome: state, parcels: 1 };
  return {
    transit_by_month: [{ month: placed.slice(0, 7), ...row }],
    transit_by_day: [{ day: placed, ...row }],
  };
}

export const parcelList = projection<Parcel>({
  version: 2,
  of: 'parcel',
  tables: {
    parcels: tables.parcels,
    parcel_orders: tables.parcelOrders,
    transit_by_month: tables.transitByMonth,
    transit_by_day: tables.transitByDay,
    on_the_way: tables.onTheWay,
    postage_paid: tables.postagePaid,
  },
  rows: (parcel): Rows => {
    if (parcel.state === 'none' || parcel.state === 'unpacked') return {};
    const { cost, postedOn: posted, country } = parcel;
    const orders = [...new Set(parcel.contents.map((it) => it.order))];
    return {
      parcels: [
        {
          parcel: parcel.parcel,
          orders: orders.join(' '),
          country,
          state: parcel.state,
          placed: parcel.placed,
          promise: parcel.promise,
          packed: parcel.packedOn!,
          posted: posted ?? null,
          given: parcel.givenUntil ?? null,
          ended: parcel.endedOn ?? null,
          service: parcel.service ?? null,
          number: parcel.number ?? null,
          weight: parcel.weight ?? null,
          format: parcel.format ?? null,
          packaging: parcel.packaging ?? null,
          cost: cost?.amount ?? null,
          currency: cost?.currency ?? null,
          changedSeq: parcel.changedSeq,
        },
      ],
      parcel_orders: orders.map((order) => ({ parcel: parcel.parcel, order })),
      ...transit(parcel),
      postage_paid:
        cost && posted
          ? [{ day: posted, country, currency: cost.currency, amount: cost.amount, parcels: 1 }]
          : [],
    };
  },
});

export const itemList = projection<Item>({
  version: 1,
  of: 'item',
  tables: { items: tables.items },
  rows: ({ item, facts, stock, counted, made, gone, broken, found }): Rows =>
    facts
      ? {
          items: [
            {
              item,
              name: facts.name,
              kind: facts.kind,
              stock: facts.kind === 'pot' ? 1 - gone : stock,
              counted: counted || facts.kind === 'pot' || facts.kind === 'download' ? 1 : 0,
              made,
              gone,
              broken,
              found,
              facts: JSON.stringify(facts),
            },
          ],
        }
      : {},
});

export const tariffList = projection<Tariff>({
  version: 1,
  of: 'tariff',
  tables: { tariffs: tables.tariffs },
  rows: ({ tariff, versions }): Rows => ({ tariffs: [{ tariff, versions: JSON.stringify(versions) }] }),
});

export const shopList = projection<Shop>({
  version: 1,
  of: 'shop',
  tables: { shop: tables.shop },
  rows: ({ facts }): Rows => ({ shop: [{ facts: JSON.stringify(facts) }] }),
});

export const downloadList = projection<Download>({
  version: 1,
  of: 'download',
  tables: { downloads: tables.downloads },
  rows: ({ download, granted, times, last }): Rows =>
    granted
      ? {
          downloads: [
            {
              download,
              order: granted.order,
              line: granted.line,
              item: granted.item,
              until: granted.until,
              most: granted.most,
              times,
              last: last ?? null,
            },
          ],
        }
      : {},
});
