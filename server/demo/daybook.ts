/** The demo's daybook: takes down what is done, day by day, as the orders that record it. */
import { markFor } from '../contract/mark.ts';
import type { Order } from '../host/host.ts';
import { momentOf } from './calendar.ts';
import type { Chance } from './chance.ts';
import type { Taken } from './pictures/taken.ts';

/** What is recorded on one day, in that order. */
export interface DemoDay {
  readonly day: string;
  /** When the day's notes reach the log: a UTC instant after everything that they speak of. */
  readonly recordedAt: string;
  readonly orders: readonly Order[];
  /** Taken on that day, to be kept and attached after the rest. */
  readonly pictures?: readonly Taken[];
}

interface Late {
  readonly day: string;
  readonly order: Order;
}

const MAKER = 'ansa';

export class Daybook {
  readonly days: DemoDay[] = [];
  #day = '';
  #seconds = 0;
  #orders: Order[] = [];
  /** Noted on a later day than they happened. */
  #late: Late[] = [];
  #marks = new Set<string>();

  constructor(readonly chance: Chance) {}

  get day(): string {
    return this.#day;
  }

  open(day: string): void {
    this.#day = day;
    this.#seconds = 7 * 3600;
    this.#orders = this.#late.filter((late) => late.day <= day).map((late) => late.order);
    this.#late = this.#late.filter((late) => late.day > day);
  }

  /** It is at least 'HH:MM' by now. */
  from(clock: string): void {
    const [hours, minutes] = clock.split(':').map(Number);
    this.#seconds = Math.max(this.#seconds, hours! * 3600 + minutes! * 60);
  }

  /** Takes down one command; returns its id. */
  note(command: string, input: object, { device = 'phone', who = MAKER } = {}): string {
    const { order, id } = this.#made(command, input, device);
    this.#orders.push({ ...order, who });
    return id;
  }

  /** It happens today, but is only noted on a later day, without its hour. */
  noteLater(command: string, input: object, day: string): string {
    const { order, id } = this.#made(command, input, 'laptop');
    this.#late.push({ day, order: { ...order, happenedAt: this.#day } });
    return id;
  }

  close(): void {
    if (this.#orders.length === 0) return;
    const last = momentOf(this.#day, this.#seconds + 60);
    this.days.push({ day: this.#day, recordedAt: new Date(last).toISOString(), orders: this.#orders });
  }

  /** An id for a piece, a firing or a person that begins now. */
  id(): string {
    return this.chance.uuid(Date.parse(momentOf(this.#day, this.#seconds)));
  }

  /** A foot mark that no other piece of the demo has. */
  mark(id: string): string {
    for (let attempt = 0; ; attempt++) {
      const mark = markFor(id, attempt);
      if (this.#marks.has(mark)) continue;
      this.#marks.add(mark);
      return mark;
    }
  }

  #made(command: string, input: object, device: string): { order: Order; id: string } {
    this.#seconds += this.chance.between(20, 70);
    const id = this.id();
    const happenedAt = momentOf(this.#day, this.#seconds);
    return { id, order: { id, command, input, happenedAt, who: MAKER, device } };
  }
}
