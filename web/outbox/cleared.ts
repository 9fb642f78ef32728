/**
 * The browser may clear what this device keeps, under an open page too. What waited still stands in the
 * open page then, and is kept again from there; what was nowhere else is said to be gone.
 */
import { trouble } from '../api/reach.ts';
import { type Database, read } from '../device/database.ts';
import { type Counted, markedGone, markedWaiting, markGone } from '../device/room.ts';
import { OutboxStore } from './store.ts';
import type { Unsent } from './unsent.ts';

/** What this page saw last, and in which making of the database. */
let born: string | undefined;
let all: readonly Unsent[] = [];

export const bornNow = (): string | undefined => born;

export const sawAll = (now: readonly Unsent[]): void => {
  all = now;
};

const together = (a: Counted | undefined, b: Counted): Counted =>
  a ? { count: a.count + b.count, oldest: Math.min(a.oldest, b.oldest) } : b;

/** Called each time the database is opened, before anything is read from it. */
export async function lookWhetherCleared(db: Database): Promise<void> {
  const now = (await read(db, 'facts', (facts) => facts.get('born'))) as string | undefined;
  const waited = markedWaiting();
  const wasCleared = born ? born !== now : !!waited?.born && waited.born !== now;
  born = now;
  let gone = markedGone();
  if (wasCleared) {
    const back = await new OutboxStore(async () => db).putBack(all);
    const lost = (waited?.count ?? 0) - all.filter(({ state }) => state !== 'left-out').length;
    if (lost > 0) gone = together(gone, { count: lost, oldest: waited!.oldest });
    markGone(gone);
    if (back > 0) trouble.value = { ...trouble.value, putBack: back };
  }
  if (gone) trouble.value = { ...trouble.value, gone };
}

/** The user has seen what is gone, and what was put back. */
export function seenCleared(): void {
  markGone(undefined);
  trouble.value = { ...trouble.value, gone: undefined, putBack: undefined };
}
