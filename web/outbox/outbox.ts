/**
 * The outbox of this device: keeps what is noted before it is shown as noted, sends it when the studio
 * is heard, and says how it stands. One for each tab; only one tab sends at a time.
 */
import type { Ahead, Noted } from '../ahead/ahead.ts';
import type { WaitingHere } from '../api/reach.ts';
import type { KeptFile } from '../device/database.ts';
import { needsOf } from './needs.ts';
import { type Line, type Outcome, pause, sendAll } from './sender.ts';
import type { OutboxStore } from './store.ts';
import { type NewUnsent, type Refused, stuckIn, type Unsent } from './unsent.ts';

export interface OutboxOf {
  readonly store: OutboxStore;
  readonly line: Line;
  /** What the studio would say, by what this device keeps; undefined while it keeps nothing. */
  readonly ahead: () => Promise<Pick<Ahead, 'note'> | undefined>;
  readonly lock: (run: () => Promise<void>) => Promise<void>;
  readonly reached: (how: 'here' | 'away' | 'signed-out') => void;
  readonly isAway: () => boolean;
  /** Entries in the log, as far as known. */
  readonly count: () => number | undefined;
  readonly stands: (how: WaitingHere, all: readonly Unsent[]) => void;
  /** Something was taken. Whoever looked on while all of it was asks for the screen anew by themselves. */
  readonly taken: (outcomes: readonly Outcome[], lookedOn: boolean) => void;
  readonly later: (run: () => void, milliseconds: number) => () => void;
  readonly chance: () => number;
}

export type NewOrder = Omit<NewUnsent, 'needs' | 'seen'>;

/** What became of orders while one looked on; `waiting`: they are kept, and the studio has not answered yet. */
export interface Logged {
  readonly outcomes: readonly (Outcome | { readonly outcome: 'waiting'; readonly id: string })[];
}

/** Milliseconds for which one looks on before an order counts as waiting. */
const PATIENCE = 2_500;

export class Outbox {
  private readonly watching = new Map<string, (outcome: Outcome | undefined) => void>();
  private sending: Promise<void> | undefined;
  private again = false;
  private tries = 0;
  private stopPause: () => void = () => {};

  constructor(private readonly of: OutboxOf) {}

  /**
   * Keeps the orders with their pictures, and waits a moment for the studio's answer where it is heard.
   * @throws DOMException where the device is full; nothing is kept then
   */
  async log(orders: readonly NewOrder[], files: readonly KeptFile[] = []): Promise<Logged> {
    const { store, isAway, ahead } = this.of;
    const away = isAway();
    if (away) {
      const refused = refusalIn(orders, await (await ahead())?.note(orders as readonly Noted[]));
      if (refused) return refused;
    }
    const entries = await this.placed(orders);
    await store.add(entries, files);
    const answers = away ? undefined : entries.map((entry) => this.watch(entry.id));
    await this.say();
    void this.send();
    const told = answers ? await Promise.all(answers) : [];
    return { outcomes: entries.map(({ id }, n) => told[n] ?? { outcome: 'waiting', id }) };
  }

  /** With what they rest on, and what this device knew of the studio. */
  async placed(orders: readonly NewOrder[]): Promise<NewUnsent[]> {
    const before: Unsent[] = await this.of.store.all();
    const entries: NewUnsent[] = [];
    for (const order of orders) {
      const seen = this.of.count();
      const needs = needsOf(order, [...before, ...entries]);
      entries.push({ ...order, needs, ...(seen === undefined ? {} : { seen }) });
    }
    return entries;
  }

  private watch(id: string): Promise<Outcome | undefined> {
    return new Promise((tell) => {
      const stop = this.of.later(() => told(undefined), PATIENCE);
      const told = (outcome: Outcome | undefined) => {
        stop();
        this.watching.delete(id);
        tell(outcome);
      };
      this.watching.set(id, told);
    });
  }

  /** Sends what can be sent; at once, and once more where something came in meanwhile. */
  send(): Promise<void> {
    this.stopPause();
    if (this.sending) {
      this.again = true;
      return this.sending;
    }
    const over = () => {
      this.sending = undefined;
      if (!this.again) return;
      this.again = false;
      void this.send();
    };
    this.sending = this.sendNow()
      // The store may be closed for a moment while a newer page changes its layout.
      .catch(() => this.tryLater())
      .then(over);
    return this.sending;
  }

  private async sendNow(): Promise<void> {
    const { store, line, lock, reached, count, taken } = this.of;
    let end: 'done' | 'not-reached' | 'signed-out' | 'busy' = 'done';
    await lock(async () => {
      if (!(await store.all()).some((it) => it.state !== 'left-out')) return;
      end = await sendAll(store, line, {
        count: () => count() ?? 0,
        watched: (id) => this.watching.has(id),
        settled: async (outcomes) => {
          reached('here');
          const lookedOn = outcomes.every(({ id }) => this.watching.has(id));
          for (const outcome of outcomes) this.watching.get(outcome.id)?.(outcome);
          await this.say();
          if (outcomes.some((it) => it.outcome !== 'held')) taken(outcomes, lookedOn);
        },
      });
    });
    if (end === 'done') {
      this.tries = 0;
    } else {
      if (end !== 'busy') reached(end === 'signed-out' ? 'signed-out' : 'away');
      this.tryLater();
    }
    await this.say();
  }

  private tryLater(): void {
    const { later, chance } = this.of;
    for (const told of [...this.watching.values()]) told(undefined);
    this.stopPause = later(() => void this.send(), pause(this.tries, chance()));
    this.tries += 1;
  }

  /** Says how it stands. */
  async say(): Promise<void> {
    const all = await this.of.store.all();
    const { refused, held } = stuckIn(all);
    const waiting = all.filter((it) => it.state === 'waiting');
    const [oldest] = all.filter((it) => it.state !== 'left-out').map((it) => Date.parse(it.clock));
    this.of.stands(
      {
        waiting: waiting.length,
        held: held.size,
        refused: refused.size,
        ...(oldest === undefined ? {} : { oldest }),
      },
      all,
    );
  }

  /** Asks again, by the user's wish. */
  async tryAgain(id: string): Promise<void> {
    await this.of.store.change(id, ({ refused: _refused, refusedAt: _at, ...entry }) => ({
      ...entry,
      failures: 0,
      state: 'waiting',
    }));
    await this.send();
  }

  /**
   * It stays in sight, with the reason, and is not sent. Others may take its place; without any, what
   * rested on it goes on its own.
   */
  async leaveOut(id: string, why: string, by: readonly NewUnsent[] = []): Promise<void> {
    await this.of.store.leaveOut(id, why, by);
    await this.say();
    await this.send();
  }
}

/** What the studio would refuse is refused here, and nothing is kept. */
function refusalIn(
  orders: readonly NewOrder[],
  foreseen: readonly unknown[] | undefined,
): Logged | undefined {
  const at = foreseen?.findIndex((it) => typeof it === 'object') ?? -1;
  if (at < 0) return undefined;
  const refusal = foreseen![at] as Refused;
  const outcomes = orders.map(({ id }, n): Outcome => {
    if (n === at) return { outcome: 'refused', id, refusal };
    return { outcome: 'held', id, needs: orders[at]!.id };
  });
  return { outcomes };
}
