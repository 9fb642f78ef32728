/**
 * The demo studio: two years of Hollin Yard Pottery up to yesterday, drawn from truth.ts. The same
 * day and seed give the same orders.
 */
import type { Order } from '../host/host.ts';
import { DAYS, dayAfter } from './calendar.ts';
import { Chance } from './chance.ts';
import type { DemoDay } from './daybook.ts';
import { dry } from './drying.ts';
import { glaze } from './glazing.ts';
import { afternoon, evening, morning, newKilns } from './kilns.ts';
import { comeBack, leave } from './leaving.ts';
import { lustre } from './lustre.ts';
import { make, teach } from './making.ts';
import { mend } from './mending.ts';
import { takenPictures } from './pictures/taken.ts';
import { borrowThimble, openBatches, setUp } from './setting-up.ts';
import { fileAndPotDays, LATEST_POT } from './shop/files-and-pots.ts';
import { shopDays } from './shop/shop.ts';
import { jot, slip } from './slips.ts';
import { templateDays } from './templates.ts';
import type { Ware } from './ware.ts';
import { Yard } from './yard.ts';

export const SEED = 'hollin-yard';

/** `today` is a day like 2026-05-01; everything happens before it. */
export function workedYard(today: string, seed = SEED): Yard {
  const yard = new Yard(new Chance(seed), today);
  const kilns = newKilns();
  const { book } = yard;
  for (let number = 0; number < DAYS; number++) {
    book.open(dayAfter(today, number - DAYS));
    if (number === 0) setUp(yard);
    if (number === 160) borrowThimble(yard);
    if (number % 7 === 0) openBatches(yard, number / 7);
    morning(yard, kilns);
    dry(yard);
    mend(yard);
    glaze(yard);
    lustre(yard, number);
    comeBack(yard);
    make(yard, number);
    slip(yard, number);
    jot(yard);
    afternoon(yard, kilns);
    leave(yard);
    evening(yard, kilns);
    teach(yard);
    book.close();
  }
  return yard;
}

/** Days before today from which notes reach the log on the same evening; before, once a week. */
const LATELY = 28;

/** Day by day, and week by week for the older ones, as the notes reach the log. */
export function demoDays(today: string, seed?: string): readonly DemoDay[] {
  const lately = dayAfter(today, -LATELY);
  const written: DemoDay[] = [];
  for (const [number, day] of allDays(today, seed).entries()) {
    const before = written.at(-1);
    const joins = day.day < lately && before && number % 7 !== 0;
    if (joins) written[written.length - 1] = together(before, day);
    else written.push(day);
  }
  return written;
}

const together = (one: DemoDay, other: DemoDay): DemoDay => ({
  ...other,
  recordedAt: [one.recordedAt, other.recordedAt].sort().at(-1)!,
  orders: [...one.orders, ...other.orders],
  pictures: [...(one.pictures ?? []), ...(other.pictures ?? [])],
});

/** What the yard, the templates and the shop noted, and the pictures, day by day: each with a chance of its own. */
function allDays(today: string, seed = SEED): DemoDay[] {
  const yard = workedYard(today, seed);
  const all = new Map(yard.book.days.map((day) => [day.day, day]));
  const shop = shopDays(new Chance(seed).of('shop'), today);
  const beside: DemoDay[] = [
    ...templateDays(new Chance(seed).of('templates'), today),
    ...shop,
    ...fileAndPotDays(new Chance(seed).of('files and pots'), today, shop, onTheShelf(yard)),
    ...takenPictures(new Chance(seed).of('pictures'), yard.book.days, yard.all),
  ];
  for (const day of beside) {
    const before = all.get(day.day);
    all.set(day.day, before ? together(before, day) : day);
  }
  return [...all.values()].sort((a, b) => (a.day < b.day ? -1 : 1));
}

/** Single pieces of the yard's own that stand graded on the shelf, untouched in the last days: seconds before firsts. */
function onTheShelf(yard: Yard): Ware[] {
  const late = yard.book.days
    .slice(-LATEST_POT)
    .map(({ orders }) => JSON.stringify(orders.map(({ input }) => input)))
    .join();
  const singles = yard.ware.filter(
    ({ owner, stage, count, piece }) =>
      // A part is made by what is done to its lot: the whole lot must have been left alone.
      owner.kind === 'own' && stage === 'graded' && count === 1 && !late.includes(lotOf(piece)),
  );
  return ['second', 'first'].flatMap((grade) => singles.filter((ware) => ware.grade === grade));
}

const lotOf = (piece: string): string => piece.split('.')[0]!;

/** All orders, in the order they are noted: nearly, but not quite, the order they happened in. */
export function demoOrders(today: string, seed?: string): Order[] {
  return demoDays(today, seed).flatMap((day) => day.orders);
}
