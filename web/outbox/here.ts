/** The outbox of this page: the database, the studio's address, the browser's events. Loaded after the first screen. */
import type { Ahead } from '../ahead/ahead.ts';
import { nowRecorded } from '../api/fresh.ts';
import { deviceId } from '../api/ids.ts';
import { hear, heard, isHeard, reach, trouble, UNSURE, waitingHere } from '../api/reach.ts';
import { signedOut } from '../api/signed-out.ts';
import type { KeptFile } from '../device/database.ts';
import { takeMark } from '../device/marks.ts';
import { database, followDatabase, kept, store } from '../device/opened.ts';
import { askToStay, isFull, markWaiting } from '../device/room.ts';
import { stands as words } from '../words/stands.ts';
import { bornNow, lookWhetherCleared, sawAll } from './cleared.ts';
import { type LineOf, lineTo } from './line.ts';
import { type Logged, type NewOrder, Outbox } from './outbox.ts';
import type { Line, Outcome } from './sender.ts';
import type { Unsent } from './unsent.ts';

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

function taken(outcomes: readonly Outcome[], lookedOn: boolean): void {
  for (const outcome of outcomes) if ('last' in outcome) hear(outcome.last);
  aheadIsOld();
  tabs?.postMessage('changed');
  if (!lookedOn) nowRecorded();
}

const line = (files: LineOf['files']): Line =>
  lineTo({
    fetch: (address, init) => fetch(address, init),
    device: deviceId(),
    now: () => new Date(),
    files,
  });

export const outbox = new Outbox({
  store,
  line: line(store),
  ahead: aheadNow,
  lock,
  reached: (how) => {
    reach.value = how;
    if (how === 'signed-out') signedOut.value = true;
  },
  isAway: () => reach.value !== 'here',
  count: () => heard.value,
  stands: (how, all) => {
    waitingHere.value = how;
    sawAll(all);
    markWaiting(how, bornNow());
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
  followDatabase({ opened: lookWhetherCleared, taken: () => void afterCleared().catch(() => {}) });
  try {
    await database();
  } catch {
    trouble.value = { keeps: false };
    return false;
  }
  if (heard.value === undefined) {
    const day = await kept.day();
    if (day) hear(day.count);
  }
  await outbox.say();
  tabs?.addEventListener('message', () => {
    aheadIsOld();
    void outbox.say().catch(() => {});
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

/** The browser closed the database under this page: it is opened anew, and the day's work fetched anew. */
async function afterCleared(): Promise<void> {
  await outbox.say();
  aheadIsOld();
  nowRecorded();
  await outbox.send();
}

/** An order as the page wishes it, with its pictures. */
export interface Wished extends Omit<NewOrder, 'files'> {
  readonly files?: readonly KeptFile[];
}

const filesOf = (wishes: readonly Wished[]): readonly KeptFile[] => wishes.flatMap(({ files = [] }) => files);

/** Whether this page knows it to be said already that this device has noted something. */
let saidNoted = false;

/**
 * Keeps the orders and sends them. Where the studio is not heard, a piece gets its foot mark from the run
 * that this device holds. Where the device has no room, they go to the studio at once, or are refused:
 * nothing of them is kept then.
 */
export async function note(wishes: readonly Wished[]): Promise<Logged['outcomes']> {
  const orders: NewOrder[] = [];
  try {
    for (const wish of wishes) orders.push(await asOrder(wish));
    const outcomes = await keepOrders(orders, filesOf(wishes));
    if (trouble.peek().full) trouble.value = { ...trouble.peek(), full: undefined };
    if (!saidNoted) await kept.keepFact('noted', true).catch(() => {});
    saidNoted = true;
    if (outcomes.some(({ outcome }) => outcome === 'waiting')) {
      // Shown folded in, here and in the other tabs.
      tabs?.postMessage('changed');
      nowRecorded();
    }
    return outcomes;
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    if (!isFull(error)) return refusedAll(wishes, 'device-failed', words.failed);
    trouble.value = { ...trouble.peek(), full: true };
    const told = await straightOn(orders, filesOf(wishes));
    if (Array.isArray(told)) taken(told, true);
    if (Array.isArray(told)) return told;
    return refusedAll(wishes, told === 'full' ? 'device-full' : UNSURE, words[told]);
  }
}

async function asOrder({ files, ...wish }: Wished): Promise<NewOrder> {
  const order = { ...wish, ...(files ? { files: files.map(({ sha256 }) => sha256) } : {}) };
  return reach.peek() === 'here' ? order : withMark(order);
}

/** Once more where the browser closed the database meanwhile, and for want of room without the lists that were told. */
async function keepOrders(
  orders: readonly NewOrder[],
  files: readonly KeptFile[],
): Promise<Logged['outcomes']> {
  try {
    return (await outbox.log(orders, files)).outcomes;
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    if (isFull(error)) await kept.dropAnswers();
    return (await outbox.log(orders, files)).outcomes;
  }
}

/** Without being kept: only where the studio is heard, and none of what waits comes before it. */
async function straightOn(
  orders: readonly NewOrder[],
  files: readonly KeptFile[],
): Promise<Outcome[] | 'full' | 'fullUnsure'> {
  if (reach.peek() !== 'here' || !(await isHeard())) return 'full';
  const placed = await outbox.placed(orders);
  const ids = new Set(placed.map(({ id }) => id));
  if (placed.some(({ needs }) => needs.some((need) => !ids.has(need)))) return 'full';
  const unsent = placed.map((entry, n): Unsent => ({ ...entry, n, state: 'waiting' }));
  const direct = line({ files: async () => [...files] });
  for (const order of unsent) if (order.files && (await direct.bringFiles(order))) return 'full';
  const answer = await direct.post(unsent);
  if ('told' in answer) return [...answer.told];
  if ('failed' in answer) return answer.failed === 'not-reached' ? 'fullUnsure' : 'full';
  return unsent.map(({ id }) => ({ outcome: 'refused', id, refusal: answer.cannot }));
}

const refusedAll = (wishes: readonly Wished[], code: string, sentence: string): Logged['outcomes'] =>
  wishes.map(({ id }) => ({ outcome: 'refused', id, refusal: { refused: true, code, sentence } }));

async function withMark(order: NewOrder): Promise<NewOrder> {
  const input = order.input as { readonly mark?: string };
  if (order.command !== 'piece.begin' || input.mark) return order;
  const taken = await takeMark();
  return taken ? { ...order, input: { ...input, ...taken } } : order;
}

export { kept, store };
