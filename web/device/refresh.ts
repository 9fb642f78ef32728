/** Keeps the day's data fresh while the studio is heard: now and then, and when the log has grown. */
import { effect } from '@preact/signals';
import { recorded } from '../api/fresh.ts';
import { whenIdle } from '../api/idle.ts';
import { hear, keptAnew, reach, trouble } from '../api/reach.ts';
import { aheadIsOld } from '../outbox/here.ts';
import { fetchDay } from './fetch-day.ts';
import { fetchPictures } from './fetch-pictures.ts';
import { refillMarks, type Studio } from './marks.ts';
import { kept, store } from './opened.ts';
import { isFull } from './room.ts';

/** Milliseconds after the log has grown: what comes in a row is fetched together. */
const SETTLE = 8_000;

/** Lists that a day's work looks at, asked as the screens ask for them. */
const LISTS = [
  '/api/waiting',
  '/api/plugins',
  '/api/reports/studio/materials',
  '/api/reports/studio/people',
  '/api/reports/studio/marks',
  '/api/reports/studio/firings',
  '/api/reports/studio/firings?limit=40',
  '/api/reports/studio/ware?limit=50',
  '/api/reports/shop-orders/today',
  '/api/reports/shop-orders/packed',
  '/api/reports/shop-orders/in-the-post',
  '/api/reports/shop-orders/items',
  '/api/reports/shop-orders/shop',
];

async function refresh({ ask, send }: Studio): Promise<void> {
  await whenIdle();
  if (reach.peek() === 'away') return;
  try {
    const before = await kept.day();
    const changed = await fetchDay(kept, ask, Date.now);
    const day = await kept.day();
    if (day) {
      hear(day.count);
      await store.dayHolds(day.count);
    }
    if (changed || !before) {
      aheadIsOld();
      for (const address of LISTS) await ask(address).catch(() => {});
    }
    // The studio's own machine is hardly ever without the studio; a phone is.
    const isPhone = location.protocol === 'https:';
    if (isPhone || (await kept.fact('noted'))) await refillMarks({ ask, send });
    // Pictures are what a full device goes without first.
    await fetchPictures(kept).catch((failure: unknown) => {
      if (!isFull(failure)) throw failure;
    });
    keptAnew.value += 1;
    if (trouble.peek().dayOf) trouble.value = { ...trouble.peek(), dayOf: undefined };
  } catch (failure) {
    if (isFull(failure)) trouble.value = { ...trouble.peek(), dayOf: (await kept.day())?.at ?? 'none' };
    // This device was sent away, or has to say the passphrase: names of people do not stay on it till then.
    if ((failure as { problem?: { status: number } }).problem?.status === 401) await kept.forget();
  }
}

/** One tab is enough. */
async function alone(run: () => Promise<void>): Promise<void> {
  if (!navigator.locks) return run();
  await navigator.locks.request('wareboard-day', { ifAvailable: true }, async (lock) => {
    if (lock) await run();
  });
}

export function followDay(studio: Studio): void {
  let soon: ReturnType<typeof setTimeout> | undefined;
  let first = true;
  effect(() => {
    void recorded.value;
    void reach.value;
    clearTimeout(soon);
    soon = setTimeout(() => void alone(() => refresh(studio)).catch(() => {}), first ? 0 : SETTLE);
    first = false;
  });
}
