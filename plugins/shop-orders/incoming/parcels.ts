/** The steps that parcels of a file come to: packed, posted, arrived, as far as that is not recorded yet. */
import type { ImportStep } from '../../../server/contract/file-import.ts';
import type { Look } from '../../../server/contract/look.ts';
import { numbered } from '../commands/placing.ts';
import type { Order, Sent } from '../state/order.ts';
import type { SaidOrder, SaidParcel } from './said.ts';

type Step = Omit<ImportStep, 'group'>;

/** Whether these lines have all gone in one parcel that is recorded. */
const sentAlready = (order: Order, lines: readonly string[], parcel: SaidParcel): Sent | undefined =>
  order.parcels.find((sent) => parcel.number !== undefined && sent.number === parcel.number) ??
  order.parcels.find(
    (sent) =>
      (parcel.number === undefined || sent.number === undefined || sent.state === 'packed') &&
      lines.every((line) => sent.contents.some((it) => it.line === line)),
  );

export function parcelSteps(order: Order, said: SaidOrder, look: Look): Step[] {
  const ids = numbered(
    said.lines,
    order.lines.filter((line) => !line.cancelled),
  ).map(({ line }) => line);
  return said.parcels.flatMap((parcel, n) => {
    const lines = parcel.lines.map((at) => ids[at]!);
    const sent = sentAlready(order, lines, parcel);
    const id = sent?.parcel ?? look.idOf('parcel', order.order, parcel.number ?? n);
    const whole =
      said.parcels.length === 1 && parcel.lines.length === said.lines.length && order.parcels.length === 0;
    const pack = whole
      ? undefined
      : parcel.lines.map((at) => ({
          order: order.order,
          line: ids[at]!,
          quantity: said.lines[at]!.quantity,
        }));
    return [
      ...(sent ? [] : [packing(order, id, parcel, pack)]),
      ...(sent && sent.state !== 'packed' ? [] : [posting(order, id, parcel)]),
      ...(parcel.arrived && !(sent && ['arrived', 'came-back'].includes(sent.state))
        ? [arriving(order, id, parcel)]
        : []),
    ];
  });
}

/* It has gone, whatever the books say of the stock. */
const packing = (
  order: Order,
  id: string,
  { posted, at }: SaidParcel,
  lines: readonly { order: string; line: string; quantity: number }[] | undefined,
): Step => ({
  line: at,
  column: 'posted',
  found: posted,
  command: 'parcel.pack',
  input: { parcel: id, orders: [order.order], ...(lines ? { lines } : {}), anyway: true },
  happenedAt: posted,
  knownBy: ['pack', id],
  sentence: `Order ${order.number}: packed.`,
});

const posting = (order: Order, id: string, { posted, service, number, at }: SaidParcel): Step => ({
  line: at,
  column: number ? 'number' : 'posted',
  found: number ?? posted,
  command: 'parcel.post',
  input: { parcel: id, ...(service ? { service } : {}), ...(number ? { number } : {}) },
  happenedAt: posted,
  knownBy: ['post', id],
  sentence: `Order ${order.number}: posted on ${posted}${service ? ` by ${service}` : ''}${number ? `, ${number}` : ''}.`,
});

const arriving = (order: Order, id: string, { arrived, at }: SaidParcel): Step => ({
  line: at,
  column: 'arrived',
  found: arrived!,
  command: 'parcel.arrive',
  input: { parcel: id, told: 'file' },
  happenedAt: arrived!,
  knownBy: ['arrive', id],
  sentence: `Order ${order.number}: arrived on ${arrived}.`,
});
