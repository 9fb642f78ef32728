/**
 * Which pictures are taken in the demo: some of what came out with each glaze, of faults, before and after
 * repairs, and of all that stands in the kiln to be drawn. With a chance and a daybook of its own, so that
 * nothing else of the demo shifts.
 */
import type { Order } from '../../host/host.ts';
import type { Chance } from '../chance.ts';
import { Daybook, type DemoDay } from '../daybook.ts';
import { glazeOf, type Ware } from '../ware.ts';
import type { Drawing } from './draw.ts';

/** `order` attaches it, but for what only the picture itself can say. */
export interface Taken {
  readonly order: Order;
  readonly drawing: Drawing;
}

const EACH_GLAZE = 2;
const FAULTS = 6;
const REPAIRS = 4;

/** What a picture is of. */
interface Wish {
  readonly day: string;
  readonly piece: string;
  readonly raw?: boolean;
  /** The fault that is to be seen on it. */
  readonly seen?: string;
  readonly says?: Readonly<Record<string, string>>;
}

interface Noted extends Omit<Order, 'input'> {
  readonly day: string;
  readonly input: Readonly<Record<string, string>> & { readonly places?: readonly { piece: string }[] };
}

/** The newest first. */
const noted = (days: readonly DemoDay[]): Noted[] =>
  days.flatMap(({ day, orders }) => orders.map((order) => ({ ...order, day }) as Noted)).toReversed();

export function takenPictures(chance: Chance, days: readonly DemoDay[], all: readonly Ware[]): DemoDay[] {
  const own = new Map(all.filter(({ owner }) => owner.kind === 'own').map((ware) => [ware.piece, ware]));
  const orders = noted(days).filter(({ input }) => input.places !== undefined || own.has(input.piece ?? ''));
  const wishes = [
    ...ofGlazes(orders, own),
    ...ofFaults(orders),
    ...ofRepairs(orders),
    ...inTheKiln(days, own),
  ];
  return inDaybook(chance, days, withoutTwins(wishes), own);
}

/** The same pot on the same day is taken once; what says most of it comes last. */
const withoutTwins = (wishes: readonly Wish[]): Wish[] => [
  ...new Map(wishes.map((wish) => [`${wish.day} ${wish.piece} ${wish.seen ?? ''}`, wish])).values(),
];

function ofGlazes(orders: readonly Noted[], own: ReadonlyMap<string, Ware>): Wish[] {
  const many = new Map<string, number>();
  return orders.flatMap(({ command, day, input }) => {
    const glaze = glazeOf(own.get(input.piece!) ?? own.values().next().value!);
    if (command !== 'piece.grade' || !input.first || glaze === undefined) return [];
    const before = many.get(glaze) ?? 0;
    many.set(glaze, before + 1);
    return before < EACH_GLAZE ? [{ day, piece: input.piece! }] : [];
  });
}

function ofFaults(orders: readonly Noted[]): Wish[] {
  const kinds = new Set<string>();
  return orders.flatMap(({ command, day, input }) => {
    const { piece, kind, zone } = input;
    if (command !== 'fault.find' || kinds.size >= FAULTS || kinds.has(kind!)) return [];
    kinds.add(kind!);
    return [{ day, piece: piece!, seen: kind!, says: { fault: kind!, ...(zone ? { zone } : {}) } }];
  });
}

/** Before: when it was decided. After: when it was graded again. */
function ofRepairs(orders: readonly Noted[]): Wish[] {
  const again = new Map<string, Noted>();
  const wishes: Wish[] = [];
  for (const order of orders) {
    const { command, day, input } = order;
    const { piece, method, fault } = input;
    if (command === 'piece.grade') again.set(piece!, order);
    const after = again.get(piece!);
    if (command !== 'repair.decide' || !after || wishes.length >= 2 * REPAIRS) continue;
    again.delete(piece!);
    wishes.push({ day, piece: piece!, seen: fault!, says: { repair: method!, shows: 'before' } });
    const seen = after.input.first ? {} : { seen: fault! };
    wishes.push({ day: after.day, piece: piece!, ...seen, says: { repair: method!, shows: 'after' } });
  }
  return wishes;
}

/** Every lot in the kiln that is still to be drawn, as it was before it went in. */
function inTheKiln(days: readonly DemoDay[], own: ReadonlyMap<string, Ware>): Wish[] {
  const standing = new Map<string, Noted>();
  for (const order of noted(days).toReversed()) {
    if (order.command === 'firing.pack') standing.set(order.input.firing!, order);
    if (order.command === 'firing.draw') standing.delete(order.input.firing!);
  }
  return [...standing.values()].flatMap(({ day, input }) =>
    input
      .places!.filter(({ piece }) => own.has(piece))
      .map(({ piece }) => ({ day, piece, raw: input.role === 'glaze' })),
  );
}

function inDaybook(
  chance: Chance,
  days: readonly DemoDay[],
  wishes: readonly Wish[],
  own: ReadonlyMap<string, Ware>,
): DemoDay[] {
  const book = new Daybook(chance);
  for (const { day } of days) {
    const today = wishes.filter((wish) => wish.day === day);
    if (today.length === 0) continue;
    book.open(day);
    book.from('20:30');
    for (const { piece, says } of today) book.note('file.attach', { to: `piece:${piece}`, ...says });
    book.close();
  }
  return book.days.map(({ day, recordedAt, orders }) => {
    const today = wishes.filter((wish) => wish.day === day);
    const pictures = orders.map((order, n) => ({
      order,
      drawing: drawingOf(own.get(today[n]!.piece)!, today[n]!),
    }));
    return { day, recordedAt, orders: [], pictures };
  });
}

const drawingOf = ({ item, clay, plan }: Ware, { piece, raw = false, seen }: Wish): Drawing => ({
  seed: piece,
  form: item.form,
  clay,
  size: item.size,
  glazes: Object.fromEntries(plan.zones.map(({ zone, layers }) => [zone, layers.map(({ glaze }) => glaze)])),
  raw,
  ...(seen ? { fault: seen } : {}),
});
