/**
 * What of working offline belongs to the first screen: little. The rest is loaded once that stands, or
 * when the studio is not heard.
 */
import { effect } from '@preact/signals';
import type { Studio } from '../device/marks.ts';
import { nowRecorded, recorded } from './fresh.ts';
import { asOf, isHeard, reach } from './reach.ts';

const canKeep = (): boolean => typeof indexedDB !== 'undefined';

/** The outbox with all that belongs to it; undefined where this browser keeps nothing. */
let opening: Promise<typeof import('../outbox/here.ts') | undefined> | undefined;

export function outboxHere(): Promise<typeof import('../outbox/here.ts') | undefined> {
  if (!canKeep()) return Promise.resolve(undefined);
  opening ??= import('../outbox/here.ts')
    .then(async (here) => ((await here.openOutbox()) ? here : undefined))
    .catch(() => {
      // The part of the page was not to be had; the next action asks for it again.
      opening = undefined;
      return undefined;
    });
  return opening;
}

/** Told before the first screen stood. */
let early: [address: string, answer: unknown][] | undefined = [];

/** Keeps what was told, for when the studio is not heard. */
export function keepTold(address: string, answer: unknown): void {
  if (!canKeep()) return;
  if (early) early.push([address, answer]);
  else void import('../device/answers.ts').then((answers) => answers.keepTold(address, answer));
}

/** The answer as this device keeps it; undefined where it does not. */
export async function fromHere(address: string): Promise<unknown> {
  if (!(await outboxHere())) return undefined;
  return (await import('../device/answers.ts')).tellFromHere(address);
}

/** Milliseconds between knocks at a studio that is not heard. */
const KNOCK = 5_000;
let knocked = 0;

/** Looks whether the studio is heard again; not too often. */
export async function knock(): Promise<void> {
  if (reach.value !== 'away' || Date.now() - knocked < KNOCK) return;
  knocked = Date.now();
  if (await isHeard()) reach.value = 'here';
}

/** Once the first screen stands. */
export async function startOffline(studio: Studio): Promise<void> {
  const here = await outboxHere();
  const told = early ?? [];
  early = undefined;
  if (here) {
    for (const [address, answer] of told) keepTold(address, answer);
    const { followDay } = await import('../device/refresh.ts');
    followDay(studio);
  }
  const { registerWorker } = await import('../worker/register.ts');
  await registerWorker();
}

/** What is on the screen is asked for again when the studio is heard again; what waits is sent. @returns the way to stop */
export function followReach(): () => void {
  let away = reach.peek() !== 'here';
  const stopReach = effect(() => {
    const now = reach.value !== 'here';
    if (away && !now) {
      asOf.value = undefined;
      queueMicrotask(nowRecorded);
    }
    away = now;
  });
  let soon: ReturnType<typeof setTimeout> | undefined;
  const stopGrown = effect(() => {
    void recorded.value;
    clearTimeout(soon);
    soon = setTimeout(() => void outboxHere().then((here) => here?.outbox.send()), 1_000);
  });
  const beat = setInterval(() => void knock(), KNOCK);
  const online = () => {
    knocked = 0;
    void knock();
  };
  addEventListener('online', online);
  return () => {
    stopReach();
    stopGrown();
    clearTimeout(soon);
    clearInterval(beat);
    removeEventListener('online', online);
  };
}
