/** The demo studio at work: its ware, its people and its kilns, with the daybook that takes everything down. */
import { partId } from '../studio/piece/part.ts';
import { dayAfter } from './calendar.ts';
import type { Chance } from './chance.ts';
import { Daybook } from './daybook.ts';
import type { Ware } from './ware.ts';

export class Yard {
  readonly book: Daybook;
  /** All that has not left. */
  ware: Ware[] = [];
  /** Everything ever begun, in order. */
  readonly all: Ware[] = [];
  readonly people = new Map<string, string>();
  /** Posted ware that will come back on that day. */
  readonly comingBack: { readonly ware: Ware; readonly day: string }[] = [];
  /** Entries found to be wrong, which are struck out on that day. */
  readonly toStrike: { readonly command: string; readonly day: string; readonly why: string }[] = [];
  readonly #numbers = new Map<string, number>();

  constructor(
    readonly chance: Chance,
    /** The demo's last day is the day before. */
    readonly today: string,
  ) {
    this.book = new Daybook(chance.of('daybook'));
  }

  get day(): string {
    return this.book.day;
  }

  /** Days until today: 1 on the last day. */
  get toGo(): number {
    return Math.round((Date.parse(this.today) - Date.parse(this.day)) / 86_400_000);
  }

  /** The next number for a firing's label. */
  nextNumber(role: string): number {
    const number = (this.#numbers.get(role) ?? 0) + 1;
    this.#numbers.set(role, number);
    return number;
  }

  later(days: number): string {
    return dayAfter(this.day, days);
  }

  /** The opaque id of a person, who is added when they are first needed. */
  person(name: string): string {
    let person = this.people.get(name);
    if (person === undefined) {
      person = this.book.id();
      this.people.set(name, person);
      this.book.note('person.add', { person, name }, { device: 'laptop' });
    }
    return person;
  }

  take(ware: Ware): void {
    this.ware.push(ware);
    this.all.push(ware);
  }

  /**
   * `count` of a lot, split off as the nth part of that command. The part begins a row of its own
   * in the notebook unless it shares the lot's.
   */
  part(ware: Ware, command: string, count: number, { n = 0, ownSheet = false } = {}): Ware {
    const at = { command, happenedAt: this.day, attempt: 0 };
    const piece = partId(ware.piece, at, n);
    const sheet = ownSheet
      ? { ...ware.sheet, mark: undefined, count, faults: [], repairs: [], left: [], note: undefined }
      : ware.sheet;
    if (ownSheet) ware.sheet.count -= count;
    ware.count -= count;
    const part: Ware = { ...ware, piece, count, sheet, chance: ware.chance.of(piece) };
    this.take(part);
    return part;
  }

  /** Gives a part that shared its lot's row in the notebook a row of its own. */
  ownRow(ware: Ware): void {
    const { sheet, count, grade, fault } = ware;
    if (sheet.count === count || !sheet.grades || !grade) return;
    sheet.count -= count;
    sheet.grades[grade] -= count;
    const its = sheet.faults.find((found) => found.kind === fault);
    if (its) its.count -= Math.min(its.count, count);
    sheet.faults = sheet.faults.filter((found) => found.count > 0);
    const none = { first: 0, second: 0, waster: 0 };
    ware.sheet = {
      ...sheet,
      mark: undefined,
      count,
      faults: its ? [{ ...its, count }] : [],
      grades: { ...none, [grade]: count },
      note: undefined,
      repairs: [],
      left: [],
    };
  }

  /** Notes that all of it, or some, left; what left is out of the yard. */
  leave(ware: Ware, how: string, { count = ware.count, ...more }: Leaving = {}): Ware {
    const some = count < ware.count;
    const input = { piece: ware.piece, how, ...(some ? { count } : {}), ...more };
    const command = this.book.note('piece.leave', input);
    const gone = some ? this.part(ware, command, count) : ware;
    this.gone(gone, how);
    return gone;
  }

  gone(ware: Ware, how: string): void {
    ware.stage = 'left';
    ware.sheet.left.push({ how, day: this.day, count: ware.count });
    this.ware.splice(this.ware.indexOf(ware), 1);
  }
}

interface Leaving {
  readonly count?: number;
  readonly to?: string;
  readonly price?: { readonly amount: number; readonly currency: string };
  readonly note?: string;
}
