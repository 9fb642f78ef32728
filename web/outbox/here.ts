/** The outbox of this page: the database, the studio's address, the browser's events. Loaded after the first screen. */
import type { Ahead } from '../ahead/ahead.ts';
import { nowRecorded } from '../api/fresh.ts';
import { deviceId } from '../api/ids.ts';
import { hear, heard, reach, trouble, waitingHere } from '../api/reach.ts';
import { signedOut } from '../api/signed-out.ts';
import { takeMark } from '../device/marks.ts';
import { database, kept, store } from '../device/opened.ts';
import { askToStay, isFull, markedWaiting, markWaiting } from '../device/room.ts';
import { stands as words } from '../words/stands.ts';
import { lineTo } from './line.ts';
import { type Logged, type NewOrder, Outbox } from './outbox.ts';
import type { Outcome } from './sender.ts';
import type { Refused } from './unsent.ts';

const tabs = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel('wareboard');

/** Decided ahead, made when it is first needed, and anew when what it rests on has changed. */
let ahead: Promise<Ahead | undefined> | undefined;

export function aheadNow(): Promise<Ahead | undefined> {
  ahead ??= makeAhead().catch(() => undefined);
  return ahead;
}

async function makeAhead(): Promise<Ahead | undefined> {
  const day = await kept.day();
  if (!day) return undefined;
  const [{ Ahead }, entries, unsent, sent] = await Promise.all([
    import('../ahead/ahead.ts'),
    kept.entries(),
    store.all(),
    store.sent(),
  ]);
  const { count, streams, zone } = day;
  const newer = sent.filter(({ last }) => last > count).sort((a, b) => a.n - b.n);
  const made = new Ahead({ entries, count, streams, zone, now: Date.now, device: deviceId() });
  // One by one: one that cannot be told ahead does not keep the others from showing.
  for (const it of [...newer, ...unsent.filter(({ state }) => state === 'waiting')]) await made.note([it]);
  return made;
}

export const aheadIsOld = (): void => {
  ahead = undefined;
};

/** Without locks two tabs may send at once: the studio takes each order once all the same. */
const lock = async (run: () => Promise<void>): Promise<void> => {
  if (navigator.locks) await navigator.locks.request('wareboard-outbox', run);
  else await run();
};

function taken(outcomes: readonly Outcome[]): void {
  for (const outcome of outcomes) if ('last' in outcome) hear(outcome.last);
  aheadIsOld();
  tabs?.postMessage('changed');
  nowRecorded();
}

export const outbox = new Outbox({
  store,
  line: lineTo({
    fetch: (address, init) => fetch(address, init),
    device: deviceId(),
    now: () => new Date(),
    files: store,
  }),
  ahead: aheadNow,
  lock,
  reached: (how) => {
    reach.value = how;
    if (how === 'signed-out') signedOut.value = true;
  },
  isAway: () => reach.value !== 'here',
  count: () => heard.value,
  stands: (how) => {
    waitingHere.value = how;
    markWaiting(how);
  },
  taken,
  later: (run, milliseconds) => {
    const timer = setTimeout(run, milliseconds);
    return () => clearTimeout(timer);
  },
  chance: Math.random,
});

/** Follows the browser's events; called once. @returns whether this device keeps anything at all */
export async function openOutbox(): Promise<boolean> {
  try {
    await database();
  } catch {
    trouble.value = { keeps: false };
    return false;
  }
  const marked = markedWaiting();
  const all = await store.all();
  if (marked && all.length === 0) trouble.value = { keeps: true, gone: marked };
  if (heard.value === undefined) {
    const day = await kept.day();
    if (day) hear(day.count);
  }
  await outbox.say();
  tabs?.addEventListener('message', () => {
    aheadIsOld();
    void outbox.say();
    nowRecorded();
  });
  addEventListener('online', () => void outbox.send());
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void outbox.send();
  });
  void outbox.send();
  void askToStay();
  return true;
}

/** An order as the page wishes it, with its pictures. */
export interface Wished extends Omit<NewOrder, 'files'> {
  readonly files?: readonly { readonly sha256: string; readonly blob: Blob }[];
}

/**
 * Keeps the orders and sends them. Where the studio is not heard, a piece gets its foot mark from the run
 * that this device holds.
 * @throws Failed-like where the device has no room: nothing is kept then
 */
export async function note(wishes: readonly Wished[]): Promise<Logged['outcomes']> {
  try {
    const orders: NewOrder[] = [];
    for (const { files, ...wish } of wishes) {
      for (const { sha256, blob } of files ?? []) await store.keepFile(sha256, blob);
      const order = { ...wish, ...(files ? { files: files.map(({ sha256 }) => sha256) } : {}) };
      orders.push(reach.peek() === 'here' ? order : await withMark(order));
    }
    const { outcomes } = await outbox.log(orders);
    void kept.keepFact('noted', true).catch(() => {});
    if (outcomes.some(({ outcome }) => outcome === 'waiting')) {
      // Shown folded in, here and in the other tabs.
      tabs?.postMessage('changed');
      nowRecorded();
    }
    return outcomes;
  } catch (error) {
    if (!isFull(error)) throw error;
    trouble.value = { ...trouble.value, full: true };
    const refusal: Refused = { refused: true, code: 'device-full', sentence: words.full };
    return wishes.map(({ id }) => ({ outcome: 'refused', id, refusal }));
  }
}

async function withMark(order: NewOrder): Promise<NewOrder> {
  const input = order.input as { readonly mark?: string };
  if (order.command !== 'piece.begin' || input.mark) return order;
  const taken = await takeMark();
  return taken ? { ...order, input: { ...input, ...taken } } : order;
}

export { kept, store };
