/** The steps that parcels of a file come to: packed, posted, arrived, as far as that is not recorded yet. */
import type { ImportStep } from '../../../server/contract/file-import.ts';
import type { Look } from '../../../server/contract/look.ts';
import { numbered } from '../commands/placing.ts';
import type { Order, Sent } from '../state/order.ts';
import type { SaidOrder, SaidParcel } from './said.ts';

type Step = Omit<ImportStep, 'group'>;

/** The recorded parcel that the file speaks of: by its number, or because it holds these lines. */
const sentAlready = (order: Order, lines: readonly string[], parcel: SaidParcel): Sent | undefined =>
  order.parcels.find((sent) => parcel.number !== undefined && sent.number === parcel.number) ??
  order.parcels.find(
    (sent) =>
      (parcel.number === undefined || sent.number === undefined || sent.state === 'packed') &&
      lines.every((line) => sent.contents.some((it) => it.line === line)),
  );

export function parcelSteps(order: Order, said: SaidOrder, look: Look): Step[] {
  const standing = order.lines.filter((line) => !line.cancelled);
  const ids = numbered(said.lines, standing).map(({ line }) => line);
  return said.parcels.flatMap((parcel, n) => {
    const lines = parcel.lines.map((at) => ids[at]!);
    const sent = sentAlready(order, lines, parcel);
    if (!sent) {
      const id = look.idOf('parcel', order.order, parcel.number ?? n);
      return newParcel(order, said, ids, parcel, id);
    }
    const known = new Set(sent.contents.map((it) => it.line));
    const more = parcel.lines.filter((at) => !known.has(ids[at]!));
    return [...goneOn(order, parcel, sent), ...forgotten(order, said, ids, parcel, more, look)];
  });
}

function newParcel(
  order: Order,
  said: SaidOrder,
  ids: readonly string[],
  parcel: SaidParcel,
  id: string,
): Step[] {
  const whole =
    said.parcels.length === 1 && parcel.lines.length === said.lines.length && order.parcels.length === 0;
  const lines = parcel.lines.map((at) => ({
    order: order.order,
    line: ids[at]!,
    quantity: said.lines[at]!.quantity,
  }));
  return [
    packing(order, id, parcel, whole ? undefined : lines),
    posting(order, id, parcel),
    ...(parcel.arrived ? [arriving(order, id, parcel)] : []),
  ];
}

/** What has happened to a parcel since. */
const goneOn = (order: Order, parcel: SaidParcel, sent: Sent): Step[] => [
  ...(sent.state === 'packed' ? [posting(order, sent.parcel, parcel)] : []),
  ...(parcel.arrived && !['arrived', 'came-back'].includes(sent.state)
    ? [arriving(order, sent.parcel, parcel)]
    : []),
];

/** Lines that were not known when their parcel was recorded: noted as one that went with it, without its number. */
function forgotten(
  order: Order,
  said: SaidOrder,
  ids: readonly string[],
  parcel: SaidParcel,
  lines: readonly number[],
  look: Look,
): Step[] {
  const gone = new Set(order.parcels.flatMap((sent) => sent.contents.map((it) => it.line)));
  const open = lines.filter((at) => !gone.has(ids[at]!));
  if (open.length === 0) return [];
  const { number: _, ...without } = parcel;
  const id = look.idOf('parcel', order.order, parcel.number ?? '', ...open.map((at) => ids[at]!));
  return newParcel(order, { ...said, parcels: [] }, ids, { ...without, lines: open }, id);
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
