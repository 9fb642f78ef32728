/** The words of orders, for what is made of them: labels, forms, messages. */
import type { Ask } from '../../../server/contract/plugin.ts';
import type { TextRef } from '../../../server/contract/text.ts';
import { addressLines } from '../post/address.ts';
import { type Order, orderKind } from '../state/order.ts';

export interface Addressed {
  readonly order: Order;
  /** Null where they were forgotten or never said. */
  readonly name: string | null;
  readonly email: string | null;
  readonly address: string | null;
  readonly postcode: string | null;
  /** As it stands on a label; only the country where the buyer was forgotten. */
  readonly label: readonly string[];
}

export async function addressed(ask: Ask, keys: readonly string[], origin?: string): Promise<Addressed[]> {
  const orders = await Promise.all(keys.map((key) => ask.state(orderKind, key)));
  const refs = orders.flatMap(({ name, email, address, postcode }) => [name, email, address, postcode]);
  const texts = await ask.texts(refs.filter((ref): ref is TextRef => ref !== undefined));
  const said = (ref: TextRef | undefined): string | null => (ref && texts.get(ref.text)) ?? null;
  return orders.map((order) => {
    const [name, address, postcode] = [said(order.name), said(order.address), said(order.postcode)];
    const to = {
      ...(name ? { name } : {}),
      lines: address?.split('\n') ?? [],
      ...(postcode ? { postcode } : {}),
      country: order.country,
    };
    const label = order.country === '' ? [] : addressLines(to, origin);
    return { order, name, email: said(order.email), address, postcode, label };
  });
}
