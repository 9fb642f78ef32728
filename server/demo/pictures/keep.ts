/** Draws the demo's pictures and keeps them as a device's would be kept. */
import type { Pictures } from '../../files/pictures.ts';
import type { Order } from '../../host/host.ts';
import { drawn } from './draw.ts';
import type { Taken } from './taken.ts';

/** The order that attaches it, once it is kept. */
export async function keptPicture(pictures: Pictures, { order, drawing }: Taken): Promise<Order> {
  const { default: sharp } = await import('sharp');
  const bytes = await sharp(Buffer.from(drawn(drawing)))
    .jpeg({ quality: 84 })
    .toBuffer();
  const picture = await pictures.keep(new Uint8Array(bytes));
  return { ...order, input: { ...(order.input as object), ...picture } };
}
