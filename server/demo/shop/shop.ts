/** The demo's shop by post: about 900 orders in two years, with what was posted when, what came and what did not. */
import { DAYS, dayAfter, isOff, weekday } from '../calendar.ts';
import type { Chance } from '../chance.ts';
import { Daybook, type DemoDay } from '../daybook.ts';
import { type Buyer, someone } from './buyers.ts';
import { ITEMS, PACKAGINGS, PLACES, type Place, POSTAGE, type ShopItem, tariff } from './catalogue.ts';
import { itemNumber } from './item-number.ts';

interface Line {
  readonly item: ShopItem;
  readonly quantity: number;
}

interface Open {
  readonly key: string;
  readonly place: Place;
  readonly lines: readonly Line[];
  readonly buyer: Buyer;
}

interface OnTheWay {
  readonly parcel: string;
  readonly key: string;
  /** Undefined: it never comes. */
  readonly arrives: string | undefined;
  /** Whether the buyer, or the post, says so. */
  readonly told: boolean;
  readonly posted: string;
}

/** Orders a day on average. */
const A_DAY = 1.16;
/** Parcels are taken to the post on Tuesdays and Fridays. */
const POST_DAYS = [2, 5];
const LOST_AFTER = 75;
const ASSUMED_AFTER = 60;

const share = (list: readonly Place[]) => Object.fromEntries(list.map((one, at) => [at, one.buyers]));
const wanted = Object.fromEntries(ITEMS.map((one, at) => [at, one.wanted]));

class Shop {
  readonly book: Daybook;
  readonly stock = new Map<string, number>();
  /** Being made, by the day they are ready. */
  readonly making: { readonly item: ShopItem; readonly day: string }[] = [];
  open: Open[] = [];
  onTheWay: OnTheWay[] = [];
  #number = 1000;
  #buyers: Buyer[] = [];

  constructor(
    private readonly chance: Chance,
    private readonly today: string,
  ) {
    this.book = new Daybook(chance.of('book'));
  }

  get day(): string {
    return this.book.day;
  }

  setUp(): void {
    this.book.note('shop.set', {
      promiseDays: 5,
      assumeDays: ASSUMED_AFTER,
      origin: 'GB',
      sender: 'Hollin Yard Pottery\nThe Old Dairy\nNowhere\nZZ0 0ZZ',
      packagings: PACKAGINGS,
      rates: [{ of: 'GBP', to: 'XDR', rate: 0.95, day: this.day }],
    });
    this.book.note('tariff.write', tariff(this.day, 1));
    for (const { name, kind, price, facts } of ITEMS)
      this.book.note('item.add', { name, kind, price: { amount: price, currency: 'GBP' }, ...facts });
    for (const item of ITEMS) this.make(item);
  }

  make(item: ShopItem): void {
    this.stock.set(item.item, (this.stock.get(item.item) ?? 0) + item.run);
    this.book.note(item.kind === 'template' ? 'stock.print' : 'stock.make', {
      item: item.item,
      count: item.run,
    });
  }

  /** Prints and makes what runs low; stamps take their time. */
  replenish(): void {
    for (const { item, day } of [...this.making])
      if (day <= this.day) {
        this.make(item);
        this.making.splice(
          this.making.findIndex((one) => one.item === item),
          1,
        );
      }
    for (const item of ITEMS) {
      const low = (this.stock.get(item.item) ?? 0) < (item.kind === 'template' ? 5 : 6);
      if (!low || this.making.some((one) => one.item === item)) continue;
      this.making.push({ item, day: dayAfter(this.day, item.leadDays + this.chance.between(0, 4)) });
    }
  }

  takeOrders(): void {
    const month = Number(this.day.slice(5, 7));
    const season = month >= 11 ? 1.7 : month <= 2 ? 1.15 : month >= 7 && month <= 8 ? 0.75 : 0.95;
    let orders = 0;
    for (let chance = this.chance.fraction(), left = Math.exp(-A_DAY * season), p = left; chance > p; ) {
      orders++;
      left *= (A_DAY * season) / orders;
      p += left;
    }
    for (let n = 0; n < orders; n++) this.takeOrder();
  }

  private takeOrder(): void {
    const place = PLACES[Number(this.chance.weighted(share(PLACES)))]!;
    const before = this.#buyers.filter((one) => one.country === place.country);
    const buyer =
      before.length > 3 && this.chance.whether(0.3)
        ? this.chance.pick(before)
        : someone(this.chance, place.country, this.book.id(), this.#buyers.length + 1);
    if (!this.#buyers.includes(buyer)) this.#buyers.push(buyer);
    const items = new Set([ITEMS[Number(this.chance.weighted(wanted))]!]);
    if (this.chance.whether(0.28)) items.add(ITEMS[Number(this.chance.weighted(wanted))]!);
    const lines = [...items].map((item) => ({ item, quantity: this.chance.whether(0.12) ? 2 : 1 }));
    const number = String(++this.#number);
    this.book.note('order.place', {
      ...buyer,
      number,
      lines: lines.map(({ item, quantity }) => ({
        item: item.name,
        quantity,
        price: { amount: item.price, currency: 'GBP' },
      })),
      postage: { amount: POSTAGE[place.zone], currency: 'GBP' },
      ...(this.chance.whether(0.2) ? { wants: { tracked: true } } : {}),
      way: 'file',
    });
    this.open.push({ key: `shop/${number}`, place, lines, buyer });
  }

  /** What can go in the order it came; the rest waits for stock. */
  post(): void {
    this.book.from('15:10');
    const later: Open[] = [];
    for (const order of this.open) {
      const there = order.lines.every(({ item, quantity }) => (this.stock.get(item.item) ?? 0) >= quantity);
      if (there) this.postOne(order);
      else later.push(order);
    }
    this.open = later;
  }

  private postOne({ key, place, lines }: Open): void {
    const parcel = this.book.id();
    for (const { item, quantity } of lines) this.stock.set(item.item, this.stock.get(item.item)! - quantity);
    const heavy = lines.some(({ item }) => item.kind === 'stamps');
    this.book.note('parcel.pack', {
      parcel,
      orders: [key],
      packaging: heavy ? 'small-box' : 'card-envelope',
    });
    const tracked = heavy || this.chance.whether(0.15);
    const name = `${tracked ? 'Tracked letter' : 'Letter'}${{ home: '', europe: ' Europe', world: ' World' }[place.zone]}`;
    const cost = { home: [240, 520], europe: [590, 1290], world: [780, 1790] }[place.zone][tracked ? 1 : 0]!;
    this.book.note('parcel.post', {
      parcel,
      service: name,
      ...(tracked ? { number: itemNumber(this.chance) } : {}),
      cost: { amount: cost, currency: 'GBP' },
    });
    const days = Math.max(1, Math.round(place.days * Math.exp(place.spread * this.chance.normal())));
    const lost = this.chance.whether(place.lost);
    this.onTheWay.push({
      parcel,
      key,
      arrives: lost ? undefined : dayAfter(this.day, days),
      told: this.chance.whether(tracked ? 0.97 : 0.82),
      posted: this.day,
    });
  }

  /** What is heard of, what is given up, what is taken to have come. */
  listen(): void {
    const still: OnTheWay[] = [];
    for (const one of this.onTheWay) {
      const age = dayAfter(this.day, -ASSUMED_AFTER);
      if (one.told && one.arrives === this.day) this.book.note('parcel.arrive', { parcel: one.parcel });
      else if (one.arrives && !one.told && one.posted === age)
        this.book.note('parcel.assume-arrived', { parcel: one.parcel, after: ASSUMED_AFTER });
      else if (!one.arrives && one.posted === dayAfter(this.day, -LOST_AFTER)) this.giveUp(one);
      else {
        if (!one.arrives && one.posted === dayAfter(this.day, -40))
          this.book.note('order.tell', { order: one.key, message: 'has-it-come', parcel: one.parcel });
        still.push(one);
      }
    }
    this.onTheWay = still;
  }

  private giveUp({ parcel, key }: OnTheWay): void {
    this.book.note('parcel.lose', { parcel, why: 'No word from the buyer, and none from the post.' });
    if (this.chance.whether(0.5))
      this.book.note('order.refund', { order: key, amount: { amount: 550, currency: 'GBP' } });
  }

  /** Now and then she counts, and now and then something has gone. */
  count(): void {
    for (const { item } of ITEMS) {
      const there = this.stock.get(item) ?? 0;
      const counted = Math.max(0, there - (this.chance.whether(0.3) ? 1 : 0));
      const why = counted === there ? {} : { why: 'One was spoilt and not noted.' };
      this.book.note('stock.count', { item, counted, ...why });
      this.stock.set(item, counted);
    }
  }

  oneDay(number: number): void {
    this.book.open(dayAfter(this.today, number - DAYS));
    this.book.from('08:40');
    if (number === 0) this.setUp();
    if (number === 380) this.book.note('tariff.write', tariff(this.day, 1.08));
    if (number % 91 === 90) this.count();
    this.takeOrders();
    if (!isOff(this.day)) {
      this.replenish();
      if (POST_DAYS.includes(weekday(this.day))) this.post();
    }
    this.listen();
    this.book.close();
  }
}

export function shopDays(chance: Chance, today: string): readonly DemoDay[] {
  const shop = new Shop(chance, today);
  for (let number = 0; number < DAYS; number++) shop.oneDay(number);
  return shop.book.days;
}
