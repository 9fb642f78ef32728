/**
 * Sends what waits, in the order it was noted, and once: the studio answers a repeated id with its
 * first outcome, so whatever was cut off is simply sent again.
 *
 * 1. The oldest that do not wait with a refused one go together.
 * 2. Taken: it leaves the outbox. Refused: it stays, with the reason. Held: it goes on waiting.
 * 3. Not reached, or signed out: nothing changes, and it is tried again later.
 */
import type { Refused, Unsent } from './unsent.ts';

export type Outcome =
  | {
      readonly outcome: 'recorded' | 'repeated';
      readonly id: string;
      readonly first: number;
      readonly last: number;
      readonly alike?: readonly number[];
    }
  | { readonly outcome: 'unchanged'; readonly id: string; readonly alike?: readonly number[] }
  | { readonly outcome: 'refused'; readonly id: string; readonly refusal: Refused }
  | { readonly outcome: 'held'; readonly id: string; readonly needs: string };

/** One that leaves the outbox; with the seq of its last entry where it became entries. */
export interface Settled {
  readonly id: string;
  readonly last?: number;
}

/** The outbox, as the sender needs it. */
export interface Store {
  all(): Promise<readonly Unsent[]>;
  settle(settled: readonly Settled[]): Promise<void>;
  change(id: string, by: (entry: Unsent) => Unsent): Promise<void>;
}

/** What came of sending. `cannot`: the studio could not read or do it, with its words. */
export type Answer =
  | { readonly told: readonly Outcome[] }
  | { readonly failed: 'not-reached' | 'signed-out' | 'busy' }
  | { readonly cannot: Refused };

export interface Line {
  post(orders: readonly Unsent[]): Promise<Answer>;
  /** Brings pictures up first; whether the order may follow. */
  bringFiles(order: Unsent): Promise<Answer | undefined>;
}

/** Together at most, so that a slow network gets through one at a time. */
const AT_ONCE = 100;
/** Letters of one request at most; the studio takes a megabyte. */
const LETTERS_AT_ONCE = 400_000;
/** An order over which the studio failed so often is shown, and holds up the others no longer. */
const MOST_FAILURES = 3;

/** Asked again, these get the same answer until the user has decided. */
const FINAL = new Set(['said-otherwise', 'bad-input', 'no-such-command', 'command-reused']);

/** Refused, these stay even where one looks on: there are two sides to it, or it can be taken later. */
const STAYS = new Set(['said-otherwise', 'no-room']);

export interface Sending {
  /** Called after each answer with what was settled by it. */
  readonly settled: (outcomes: readonly Outcome[]) => Promise<void> | void;
  /** Whether somebody is still looking at the screen it was noted on, and is told there. */
  readonly watched: (id: string) => boolean;
  /** Entries in the log, as far as known. */
  readonly count: () => number;
}

/** @returns why it stopped: all is sent that can be, or it is to be tried again later */
export async function sendAll(
  store: Store,
  line: Line,
  { settled, watched, count }: Sending,
): Promise<'done' | 'not-reached' | 'signed-out' | 'busy'> {
  const asked = new Set<string>();
  for (;;) {
    const batch = nextOf(await store.all(), asked, count());
    if (batch.length === 0) return 'done';
    const answer = await send(batch, line);
    if ('failed' in answer) return answer.failed;
    const outcomes = 'told' in answer ? answer.told : await oneByOne(batch, line, answer.cannot, store);
    if (outcomes === undefined) return 'busy';
    for (const { id } of batch) asked.add(id);
    await settle(outcomes, store, watched, count());
    await settled(outcomes);
  }
}

/** The oldest that may go now; each is asked once in one sending. */
function nextOf(all: readonly Unsent[], asked: ReadonlySet<string>, count: number): Unsent[] {
  const unsent = new Set(all.filter((it) => it.state !== 'left-out').map((it) => it.id));
  const batch: Unsent[] = [];
  let letters = 0;
  for (const entry of all) {
    if (entry.state === 'left-out' || asked.has(entry.id)) continue;
    if (entry.state === 'refused' && !isAskedAgain(entry, count)) continue;
    // Along with what it needs, or after that was taken: the studio holds it back if that is refused.
    if (entry.needs.some((id) => unsent.has(id) && !batch.some((it) => it.id === id))) continue;
    letters += JSON.stringify(entry.input).length + 400;
    if (batch.length === AT_ONCE || (letters > LETTERS_AT_ONCE && batch.length > 0)) break;
    batch.push(entry);
  }
  return batch;
}

const isAskedAgain = ({ refused, refusedAt = 0 }: Unsent, count: number): boolean =>
  count > refusedAt && !FINAL.has(refused?.code ?? '');

async function send(batch: readonly Unsent[], line: Line): Promise<Answer> {
  for (const order of batch) {
    if (!order.files?.length) continue;
    const stopped = await line.bringFiles(order);
    if (stopped) return stopped;
  }
  return line.post(batch);
}

/** The studio could not take them together: each is tried alone, so that one does not hold up all. */
async function oneByOne(
  batch: readonly Unsent[],
  line: Line,
  why: Refused,
  store: Store,
): Promise<readonly Outcome[] | undefined> {
  const outcomes: Outcome[] = [];
  for (const order of batch) {
    if (order.needs.some((id) => outcomes.some((it) => it.id === id && it.outcome === 'refused'))) {
      outcomes.push({ outcome: 'held', id: order.id, needs: order.needs[0]! });
      continue;
    }
    const answer: Answer = batch.length === 1 ? { cannot: why } : await send([order], line);
    if ('failed' in answer) return outcomes.length > 0 ? outcomes : undefined;
    if ('told' in answer) outcomes.push(...answer.told);
    else if (answer.cannot.code !== 'went-wrong' || (order.failures ?? 0) + 1 >= MOST_FAILURES)
      outcomes.push({ outcome: 'refused', id: order.id, refusal: answer.cannot });
    else {
      await store.change(order.id, (it) => ({ ...it, failures: (it.failures ?? 0) + 1 }));
      return outcomes.length > 0 ? outcomes : undefined;
    }
  }
  return outcomes;
}

async function settle(
  outcomes: readonly Outcome[],
  store: Store,
  watched: Sending['watched'],
  count: number,
): Promise<void> {
  const gone: Settled[] = [];
  const stays: Extract<Outcome, { outcome: 'refused' }>[] = [];
  for (const outcome of outcomes) {
    const { id } = outcome;
    if (outcome.outcome === 'held') {
      if (watched(id)) gone.push({ id });
    } else if (outcome.outcome !== 'refused')
      gone.push('last' in outcome ? { id, last: outcome.last } : { id });
    else if (watched(id) && !STAYS.has(outcome.refusal.code)) gone.push({ id });
    else stays.push(outcome);
  }
  // What goes makes room for the reasons of what stays.
  if (gone.length > 0) await store.settle(gone);
  for (const outcome of stays) await refuse(outcome, store, count);
}

const refuse = (
  { id, refusal }: Extract<Outcome, { outcome: 'refused' }>,
  store: Store,
  count: number,
): Promise<void> =>
  store.change(id, (entry) =>
    entry.state === 'left-out' ? entry : { ...entry, state: 'refused', refused: refusal, refusedAt: count },
  );

/** Milliseconds until the next try: calm, and not all phones at the same moment. @param chance from 0 to 1 */
export function pause(tries: number, chance: number): number {
  return Math.min(2_000 * 2 ** tries, 300_000) * (0.75 + chance / 2);
}
