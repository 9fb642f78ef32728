/**
 * One sitting: a group of orders is read, decided one after the other, and recorded in one go.
 * Where somebody else was quicker, what is left over is decided again.
 */
import type { NewEntry } from '../contract/entry.ts';
import type { Settings } from '../contract/plugin.ts';
import type { Files } from '../files/store.ts';
import {
  ClaimTaken,
  type Clock,
  CommandReused,
  type EventLog,
  type Receipt,
  StreamMoved,
  Unkeepable,
} from '../log/log.ts';
import type { People } from '../people/people.ts';
import { Decider, type Draft, type Settled } from './decider.ts';
import type { Desk } from './desk.ts';
import { lackingFile } from './files.ts';
import type { Order, Refused } from './host.ts';
import { nowIn, type ReadOrder, type ReadyOrder, readOrder } from './read-order.ts';
import { readyOrder, reused, unkeepable } from './ready-order.ts';
import type { Registry } from './registry.ts';

export interface Studio {
  readonly registry: Registry;
  readonly log: EventLog;
  readonly people: People;
  /** Where files are kept that commands name; without it there are none. */
  readonly files?: Pick<Files, 'standing' | 'touch'>;
  readonly clock: Clock;
  /** The studio's zone is needed to know its days. */
  readonly settings: () => Promise<Pick<Settings, 'zone'>>;
}

/** After so many times somebody else is writing all the time, or something is wrong. */
const MOST_ROUNDS = 20;

export class Sitting {
  private readonly settled: (Settled | undefined)[];
  private readonly ready = new Map<number, ReadyOrder>();
  private reading: Promise<void> | undefined;
  /** Ids of texts kept so far. */
  private readonly kept = new Set<string>();

  constructor(
    private readonly studio: Studio,
    private readonly desk: Desk,
    private readonly orders: readonly Order[],
  ) {
    this.settled = orders.map(() => undefined);
  }

  /**
   * Decides and records. No two orders have the same id.
   * @param whileWriting called each time when the log is being written
   */
  async record(whileWriting: () => void): Promise<readonly Settled[]> {
    await this.read();
    for (let round = 0; round < MOST_ROUNDS && this.open().length > 0; round++) {
      const drafts = await this.decide();
      await this.keepTexts(drafts);
      const answers = this.studio.log.appendAll(drafts.map((draft) => draft.append));
      whileWriting();
      this.settle(drafts, await answers);
    }
    for (const at of this.open())
      this.settled[at] = new Error(
        `Others kept writing in the same streams; ${this.orders[at]!.command} was not recorded. Send it again.`,
      );
    await this.dropTexts();
    return this.settled as Settled[];
  }

  /** Decides and records nothing. */
  async foresee(): Promise<readonly Settled[]> {
    await this.read();
    for (const { at, append } of await this.decide()) {
      const { command: id, first, entries } = append;
      this.settled[at] = { outcome: 'recorded', id, first, last: first + entries.length - 1 };
    }
    return this.settled as Settled[];
  }

  private open(): number[] {
    return [...this.ready.keys()].filter((at) => this.settled[at] === undefined);
  }

  private refuse(at: number, refusal: Refused): void {
    this.settled[at] = { outcome: 'refused', id: this.orders[at]!.id, refusal };
  }

  /** Reads the orders, finds those that were recorded before, and makes ready the others. */
  read(): Promise<void> {
    this.reading ??= this.readAll();
    return this.reading;
  }

  private async readAll(): Promise<void> {
    const { registry, people, log, clock, settings } = this.studio;
    const now = nowIn((await settings()).zone, clock().getTime());
    const read = this.orders.map((order) => readOrder(order, registry, now));
    const fit = read.flatMap((it, at) => ('refused' in it ? [] : [[at, it] as const]));
    const [texts, known] = await Promise.all([
      referAll(
        people,
        fit.map(([, it]) => it),
      ),
      log.receipts(this.orders.map((order) => order.id)),
    ]);
    for (const [at, it] of read.entries()) {
      if ('refused' in it) {
        this.refuse(at, it);
        continue;
      }
      const ready = readyOrder(it, texts.get(it.order.id) ?? []);
      const before = known.get(it.order.id);
      if ('refused' in ready) this.refuse(at, ready);
      else if (before && before.fingerprint !== ready.fingerprint) this.refuse(at, reused(it.order.id));
      else if (before)
        this.settled[at] = { outcome: 'repeated', id: it.order.id, first: before.first, last: before.last };
      else {
        const lacking = lackingFile(it.command, it.input, this.studio.files);
        if (lacking) this.refuse(at, lacking);
        else this.ready.set(at, ready);
      }
    }
  }

  /** Decides the open orders in turn; those that are to be recorded come back, the others are settled. */
  private async decide(): Promise<Draft[]> {
    const decider = new Decider(this.studio.registry, this.desk, this.studio.clock().toISOString());
    return decider.decideAll(
      this.open().map((at) => ({ at, ready: this.ready.get(at)! })),
      (at, settled) => {
        this.settled[at] = settled;
      },
      (at) => {
        this.settled[at] = undefined;
      },
    );
  }

  private async keepTexts(drafts: readonly Draft[]): Promise<void> {
    const texts = drafts.flatMap(({ ready, append }) => {
      const streams = streamsOf(append.entries);
      return ready.texts.filter((text) => !this.kept.has(text.id)).map((text) => ({ ...text, streams }));
    });
    if (texts.length === 0) return;
    await this.studio.people.keep(texts);
    for (const text of texts) this.kept.add(text.id);
  }

  private settle(drafts: readonly Draft[], answers: readonly (Receipt | Error)[]): void {
    let asReckoned = true;
    for (const [index, { at, append, alike }] of drafts.entries()) {
      const answer = answers[index]!;
      if (!(answer instanceof Error))
        this.settled[at] = { ...answer, id: append.command, ...(alike.length > 0 ? { alike } : {}) };
      else if (answer instanceof CommandReused) this.refuse(at, reused(append.command));
      else if (answer instanceof Unkeepable) this.refuse(at, unkeepable(answer));
      else if (!(answer instanceof StreamMoved || answer instanceof ClaimTaken)) this.settled[at] = answer;
      if (answer instanceof Error || answer.first !== append.first) asReckoned = false;
    }
    if (asReckoned) this.desk.recorded();
    else this.desk.clear();
  }

  /** Texts of what came to nothing in the end. */
  private async dropTexts(): Promise<void> {
    const lost = [...this.ready].flatMap(([at, { texts }]) => {
      const settled = this.settled[at]!;
      const recorded =
        !(settled instanceof Error) && settled.outcome !== 'refused' && settled.outcome !== 'unchanged';
      // After an error nobody knows; a repeat will tell, and finds the text again.
      return recorded || settled instanceof Error
        ? []
        : texts.filter((text) => this.kept.has(text.id) && text.kept === 'no');
    });
    if (lost.length > 0) await this.studio.people.drop(lost.map((text) => text.id));
  }
}

const streamsOf = (entries: readonly NewEntry[]): string[] => [
  ...new Set(entries.flatMap((entry) => entry.streams)),
];

/** References for all texts of all orders, by the order's id. */
async function referAll(people: People, orders: readonly ReadOrder[]) {
  const byOrder = new Map<string, Awaited<ReturnType<People['refer']>>>();
  const withTexts = orders.filter((read) => read.texts.length > 0);
  if (withTexts.length === 0) return byOrder;
  const referred = await people.refer(withTexts.flatMap((read) => read.texts));
  let next = 0;
  for (const { order, texts } of withTexts) {
    byOrder.set(order.id, referred.slice(next, next + texts.length));
    next += texts.length;
  }
  return byOrder;
}
