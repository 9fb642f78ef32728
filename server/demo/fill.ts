/** Records the demo studio in an empty data folder. */
import type { Plugin } from '../contract/plugin.ts';
import type { Host, Outcome, Progress } from '../host/host.ts';
import type { Clock } from '../log/log.ts';
import { openHost } from '../open-host.ts';
import type { DemoDay } from './daybook.ts';
import { demoDays } from './demo.ts';
import { keptPicture } from './pictures/keep.ts';

/** A clock that can be put back: the demo is recorded as if each day's notes had come in on that day. */
export interface SteeredClock {
  readonly clock: Clock;
  /** It stands at this UTC instant, until it is let go. */
  at(instant: string): void;
  /** It is the real clock again. */
  letGo(): void;
}

export function steered(real: Clock): SteeredClock {
  let stands: string | undefined;
  return {
    clock: () => (stands === undefined ? real() : new Date(stands)),
    at: (instant) => {
      stands = instant;
    },
    letGo: () => {
      stands = undefined;
    },
  };
}

/**
 * Records two years up to the day before `today`. With the host's steered clock each day is recorded
 * on its own evening, so that known-at has something to say; without it everything is recorded now.
 * @throws Error naming the order, when one is refused
 */
export async function fillDemo(
  host: Host,
  today: string,
  progress?: Progress,
  clock?: SteeredClock,
): Promise<void> {
  const days = clock ? demoDays(today) : [atOnce(demoDays(today))];
  const pictures = days.flatMap((day) => day.pictures ?? []);
  const all = days.reduce((sum, { orders }) => sum + orders.length, pictures.length);
  // Drawn on other threads while the older days are recorded.
  const kept = new Map(pictures.map((taken) => [taken, keptPicture(host.pictures, taken)]));
  for (const keeping of kept.values()) keeping.catch(() => {});
  let done = 0;
  try {
    for (const day of days) {
      const attached = await Promise.all((day.pictures ?? []).map((taken) => kept.get(taken)!));
      const orders = [...day.orders, ...attached];
      clock?.at(day.recordedAt);
      const outcomes = await host.recordAll(orders, (within) => progress?.(done + within, all));
      for (const [n, outcome] of outcomes.entries()) checkAccepted(outcome, orders[n]!.command);
      done += orders.length;
    }
  } finally {
    clock?.letGo();
  }
}

const atOnce = (days: readonly DemoDay[]): DemoDay => ({
  day: '',
  recordedAt: '',
  orders: days.flatMap(({ orders }) => orders),
  pictures: days.flatMap(({ pictures = [] }) => pictures),
});

function checkAccepted(outcome: Outcome, command: string): void {
  if (outcome.outcome !== 'refused') return;
  throw new Error(`The demo studio could not be made: ${command} was refused. ${outcome.refusal.sentence}`);
}

/** Makes the demo studio in an empty data folder, and leaves the folder ready to be opened. */
export async function makeDemo(
  dir: string,
  plugins: readonly Plugin[],
  today: string,
  progress?: Progress,
): Promise<void> {
  const clock = steered(() => new Date());
  const host = await openHost({ dir, plugins, clock: clock.clock });
  try {
    await fillDemo(host, today, progress, clock);
  } finally {
    await host.close();
  }
}
