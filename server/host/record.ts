/**
 * The way into the log. Whatever waits is taken together: single commands of many clients commit as
 * a group, and a long list of commands goes through in groups between them.
 */

import type { Settled } from './decider.ts';
import { Desk } from './desk.ts';
import type { Order, Outcome, Progress } from './host.ts';
import { Sitting, type Studio } from './sitting.ts';

export interface Recorder {
  record(order: Order): Promise<Outcome>;
  /** @throws the first error of a plugin or of the log; what was recorded before it stays */
  recordAll(orders: readonly Order[], progress?: Progress): Promise<Outcome[]>;
  foresee(orders: readonly Order[]): Promise<Outcome[]>;
}

/** Orders in one transaction at most, so that a long list does not hold up everybody else. */
const LARGEST_GROUP = 1_000;

interface Waiting {
  readonly order: Order;
  readonly settle: (settled: Settled) => void;
}

export function makeRecorder(studio: Studio): Recorder {
  const queue = new Queue(studio);
  const settled = (order: Order) => new Promise<Settled>((settle) => queue.add({ order, settle }));
  return {
    record: async (order) => outcomeOf(await settled(order)),
    recordAll: async (orders, progress) => {
      const enqueue = (from: number) => Promise.all(orders.slice(from, from + LARGEST_GROUP).map(settled));
      const outcomes: Outcome[] = [];
      // One group ahead, so that it can be read while the one before is written.
      let ahead = enqueue(0);
      while (outcomes.length < orders.length) {
        const group = ahead;
        ahead = enqueue(outcomes.length + LARGEST_GROUP);
        for (const one of await group) outcomes.push(outcomeOf(one));
        progress?.(outcomes.length, orders.length);
      }
      return outcomes;
    },
    foresee: (orders) => foresee(studio, orders),
  };
}

function outcomeOf(settled: Settled): Outcome {
  if (settled instanceof Error) throw settled;
  return settled;
}

async function foresee(studio: Studio, orders: readonly Order[]): Promise<Outcome[]> {
  const desk = new Desk(studio.registry, studio.log, true);
  const outcomes = new Map<string, Outcome>();
  const once = [...new Map(orders.map((order) => [order.id, order])).values()];
  for (let from = 0; from < once.length; from += LARGEST_GROUP) {
    const group = once.slice(from, from + LARGEST_GROUP);
    for (const settled of await new Sitting(studio, desk, group).foresee())
      outcomes.set(outcomeOf(settled).id, outcomeOf(settled));
    // A long list must not hold up everybody else.
    await new Promise(setImmediate);
  }
  const seen = new Set<string>();
  return orders.map(({ id }) => {
    const outcome = outcomes.get(id)!;
    const again = seen.has(id) && outcome.outcome === 'recorded';
    seen.add(id);
    return again ? { ...outcome, outcome: 'repeated' } : outcome;
  });
}

/** Orders that are recorded together. */
interface Group {
  readonly waiting: readonly Waiting[];
  readonly ids: ReadonlySet<string>;
  readonly sitting: Sitting;
}

class Queue {
  private waiting: Waiting[] = [];
  private running = false;
  private readonly desk: Desk;

  constructor(private readonly studio: Studio) {
    this.desk = new Desk(studio.registry, studio.log);
  }

  add(waiting: Waiting): void {
    this.waiting.push(waiting);
    if (this.running) return;
    this.running = true;
    void this.run();
  }

  private async run(): Promise<void> {
    // A turn of the event loop, so that everybody who was just answered can join the next group.
    await new Promise(setImmediate);
    let ahead: Group | undefined;
    while (ahead || this.waiting.length > 0) {
      const group = ahead ?? this.next();
      ahead = undefined;
      const settled = await this.sit(group, () => {
        // Only a full group: others had better wait for those who are answered now.
        if (!ahead && this.waiting.length >= LARGEST_GROUP) ahead = this.readAhead(group);
      });
      for (const [index, { settle }] of group.waiting.entries()) settle(settled[index]!);
      await new Promise(setImmediate);
    }
    this.running = false;
  }

  private async sit(group: Group, whileWriting: () => void): Promise<readonly Settled[]> {
    try {
      return await group.sitting.record(whileWriting);
    } catch (error) {
      this.desk.clear();
      const failed = error instanceof Error ? error : new Error(String(error));
      return group.waiting.map(() => failed);
    }
  }

  private readAhead(current: Group): Group | undefined {
    const group = this.next(current.ids);
    if (group.waiting.length === 0) return undefined;
    // When the log has begun to write; an error comes out when the group has its turn.
    setImmediate(() => setImmediate(() => group.sitting.read().catch(() => {})));
    return group;
  }

  /**
   * Up to the largest group, or to an id that is in it or before it already: that one will be a
   * repeat of what is recorded by then.
   */
  private next(before: ReadonlySet<string> = new Set()): Group {
    const ids = new Set<string>();
    for (const { order } of this.waiting) {
      if (ids.size === LARGEST_GROUP || ids.has(order.id) || before.has(order.id)) break;
      ids.add(order.id);
    }
    const waiting = this.waiting.splice(0, ids.size);
    const orders = waiting.map(({ order }) => order);
    return { waiting, ids, sitting: new Sitting(this.studio, this.desk, orders) };
  }
}
