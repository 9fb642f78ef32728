/** Streams whose words are about a buyer: their orders, and the parcels these went in. */
import type { Ask } from '../../server/contract/plugin.ts';

export async function concerning(ask: Ask, person: string): Promise<string[]> {
  const orders = await ask.query<{ order: string }>(
    'SELECT order_key AS "order" FROM orders WHERE buyer = ?',
    [person],
  );
  const parcels = await ask.query<{ parcel: string }>(
    `SELECT DISTINCT p.parcel AS parcel FROM orders AS o JOIN parcel_orders AS p ON p.order_key = o.order_key
     WHERE o.buyer = ?`,
    [person],
  );
  return [...orders.map(({ order }) => `order:${order}`), ...parcels.map(({ parcel }) => `parcel:${parcel}`)];
}
