/**
 * Orders of which some need others, as a device sends what waited in it: one that needs a refused
 * order is held back with it, and is not decided as if that had been so.
 */
import type { Order, Outcome } from './host.ts';

export interface Dependent extends Order {
  /** Ids of orders that must have been taken before this one. Those not sent along were taken earlier. */
  readonly needs?: readonly string[];
}

/** Not decided, since an order that it needs was refused. */
export interface Held {
  readonly outcome: 'held';
  readonly id: string;
  /** The order it waits for. */
  readonly needs: string;
}

/** In order, each run of orders that do not need each other decided together. */
export async function recordInTurn(
  orders: readonly Dependent[],
  recordAll: (orders: readonly Order[]) => Promise<Outcome[]>,
): Promise<(Outcome | Held)[]> {
  const outcomes: (Outcome | Held)[] = [];
  const stopped = new Set<string>();
  let run: { readonly at: number; readonly order: Order }[] = [];
  const recordRun = async () => {
    const answers = await recordAll(run.map(({ order }) => order));
    for (const [n, { at }] of run.entries()) {
      outcomes[at] = answers[n]!;
      if (answers[n]!.outcome === 'refused') stopped.add(answers[n]!.id);
    }
    run = [];
  };
  for (const [at, { needs = [], ...order }] of orders.entries()) {
    if (run.some((before) => needs.includes(before.order.id))) await recordRun();
    const missing = needs.find((id) => stopped.has(id));
    if (missing === undefined) run.push({ at, order });
    else {
      stopped.add(order.id);
      outcomes[at] = { outcome: 'held', id: order.id, needs: missing };
    }
  }
  await recordRun();
  return outcomes;
}
