/**
 * What the demo's shop sells beside its sheets and stamps: templates as files, fetched by a link or sent with a
 * message, and a second (or a pot) that is one piece of the yard. Kept in a daybook and with a chance of its own, so that
 * neither the ware nor the other orders are touched by it.
 */

import type { Money } from '../../contract/studio/values.ts';
import { DAYS, dayAfter } from '../calendar.ts';
import type { Chance } from '../chance.ts';
import { Daybook, type DemoDay } from '../daybook.ts';
import type { Ware } from '../ware.ts';
import { someone } from './buyers.ts';
import { PLACES, type Place } from './catalogue.ts';

const TEMPLATES = ['house-lantern', 'faceted-jug', 'wall-pocket'] as const;
const FILES = [
  { name: 'House Lantern file', template: 'house-lantern', price: 450 },
  { name: 'Faceted Jug file', template: 'faceted-jug', price: 350 },
] as const;
/** Day of the demo on which each file was ordered; the last link is still open. */
const ORDERED_ON = [64, 121, 190, 233, 305, 352, 418, 490, 561, 640, 705, DAYS - 4];
/** Days before today on which the pot comes into the shop; it has not been touched since. */
const POT_SOLD = 9;
export const LATEST_POT = POT_SOLD + 2;

const pounds = (amount: number) => ({ amount, currency: 'GBP' });
const paperOf = (template: string) => ({ plugin: 'template-sheets', paper: 'kept', input: { template } });
const wanted = Object.fromEntries(PLACES.map((one, at) => [at, one.buyers]));

type Later = (book: Daybook) => void;

class Counter {
  readonly book: Daybook;
  readonly #later = new Map<string, Later[]>();
  #orders = 0;

  constructor(readonly chance: Chance) {
    this.book = new Daybook(chance.of('book'));
  }

  in(days: number, work: Later): void {
    const day = dayAfter(this.book.day, days);
    this.#later.set(day, [...(this.#later.get(day) ?? []), work]);
  }

  due(): void {
    for (const work of this.#later.get(this.book.day) ?? []) work(this.book);
  }

  setUp(): void {
    for (const template of TEMPLATES)
      this.book.note('item.change', { item: `${template}-template`, paper: paperOf(template) });
    for (const { name, template, price } of FILES)
      this.book.note('item.add', {
        name,
        kind: 'download',
        price: pounds(price),
        paper: paperOf(template),
      });
  }

  /** @returns the order's key */
  order(place: Place, item: string, price: number, more: object = {}): { key: string; number: string } {
    const number = `F${101 + this.#orders++}`;
    const buyer = someone(this.chance, place.country, this.book.id(), 5_000 + this.#orders);
    const lines = [{ item, quantity: 1, price: pounds(price) }];
    this.book.note('order.place', { ...buyer, number, lines, way: 'file', ...more });
    return { key: `shop/${number}`, number };
  }

  /** A file, with its link made in the evening; some buyers fetch it twice, one has it sent. */
  sellFile(fetched: boolean): void {
    const place = PLACES[Number(this.chance.weighted(wanted))]!;
    const file = this.chance.pick(FILES);
    const { key, number } = this.order(place, file.name, file.price);
    const download = this.book.id();
    this.book.from('19:30');
    this.book.note('download.grant', { download, order: key, line: '1' });
    if (!fetched) return;
    const paper = place.country === 'US' ? 'Letter' : this.chance.weighted({ A4: 6, A3: 2, 'roll 610': 1 });
    const how = this.chance.whether(0.2) ? 'message' : 'link';
    const times = how === 'link' && this.chance.whether(0.3) ? 2 : 1;
    const handOut: Later = (book) => {
      const from = how === 'link' ? { device: 'link', who: 'buyer' } : {};
      book.note('download.hand-out', { download, how, paper }, from);
      const out = { template: file.template, paper, how: 'download', order: number };
      book.note('template.give-out', out, from);
      if (how === 'message') book.note('order.tell', { order: key, message: 'download' });
    };
    for (let n = 1; n <= times; n++) this.in(n, handOut);
  }

  /** What was printed for the shelf counts with its template as well. */
  printed(day: DemoDay | undefined): void {
    for (const { command, input } of day?.orders ?? []) {
      if (command !== 'stock.print') continue;
      const { item, count } = input as { item: string; count: number };
      const template = item.replace(/-template$/, '');
      this.book.note('template.give-out', { template, paper: 'A3', how: 'printed', count });
    }
  }

  sellPot({ piece, item, grade }: Ware, price: Money): void {
    const form = `${item.form[0]!.toUpperCase()}${item.form.slice(1)}`;
    const name = grade === 'second' ? `${form}, second` : form;
    this.book.note('item.add', { name, kind: 'pot', piece, price, weight: 900 });
    this.in(1, () => {
      const home = PLACES.find((one) => one.zone === 'home')!;
      const { key } = this.order(home, name, price.amount, { postage: pounds(520) });
      this.in(1, (book) => {
        const parcel = book.id();
        book.note('parcel.pack', { parcel, orders: [key], packaging: 'small-box', weight: 1_050 });
        book.note('parcel.post', { parcel, service: 'Tracked letter', cost: pounds(520) });
        this.in(3, () => book.note('parcel.arrive', { parcel }));
      });
    });
  }
}

/**
 * @param shop what the shop noted, day by day
 * @param shelf single pieces that stand graded on the shelf to the end; the first of them is sold
 */
export function fileAndPotDays(
  chance: Chance,
  today: string,
  shop: readonly DemoDay[],
  shelf: readonly Ware[],
): readonly DemoDay[] {
  const counter = new Counter(chance);
  const { book } = counter;
  const noted = new Map(shop.map((day) => [day.day, day]));
  for (let number = 0; number < DAYS; number++) {
    book.open(dayAfter(today, number - DAYS));
    book.from('17:40');
    counter.printed(noted.get(book.day));
    if (number === 1) counter.setUp();
    counter.due();
    if (number === DAYS - POT_SOLD && shelf[0]?.price) counter.sellPot(shelf[0], shelf[0].price);
    if (ORDERED_ON.includes(number)) counter.sellFile(number !== ORDERED_ON.at(-1));
    book.close();
  }
  return book.days;
}
