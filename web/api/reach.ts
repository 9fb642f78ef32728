/** Whether the studio is heard, and what waits on this device: what the frame of every screen shows. */
import { signal } from '@preact/signals';

/** 'here': it answers. 'away': it does not. 'signed-out': it answers, but not to this device. */
export const reach = signal<'here' | 'away' | 'signed-out'>('here');

/** When what is on the screen was last told, in milliseconds; undefined while it is told live. */
export const asOf = signal<number | undefined>(undefined);

/** Goes up whenever what is kept for work without the network was brought up to date. */
export const keptAnew = signal(0);

/** Entries in the log that this device has heard of. */
export const heard = signal<number | undefined>(undefined);

export const hear = (count: number): void => {
  if (count > (heard.value ?? -1)) heard.value = count;
};

export interface WaitingHere {
  /** To be sent, those that wait with a refused one included. */
  readonly waiting: number;
  /** Of those, how many wait with a refused one. */
  readonly held: number;
  /** For the user to decide. */
  readonly refused: number;
  /** When the oldest of them was noted, in milliseconds. */
  readonly oldest?: number;
}

export const waitingHere = signal<WaitingHere>({ waiting: 0, held: 0, refused: 0 });

/** There is a newer page; calling it goes over to it. Nothing that waits is touched. */
export const newer = signal<(() => void) | undefined>(undefined);

/** What is wrong with keeping things on this device. */
export interface Trouble {
  readonly keeps: boolean;
  /** The last that was noted had no room. */
  readonly full?: boolean;
  /** There was no room for the day's work: what is kept is of this moment, in milliseconds; none is. */
  readonly dayOf?: number | 'none';
  /** What waited was cleared by the browser. */
  readonly gone?: { readonly count: number; readonly oldest: number };
  /** That many were cleared, and kept again from what an open page knew. */
  readonly putBack?: number;
}

export const trouble = signal<Trouble>({ keeps: true });

/** Milliseconds in which the studio answers, or is not heard. */
const PATIENCE = 5_000;

/** Whether the studio answers now. */
export const isHeard = (): Promise<boolean> =>
  fetch('/api/session', { cache: 'no-store', signal: AbortSignal.timeout(PATIENCE) }).then(
    ({ status }) => status < 500,
    () => false,
  );

/** Code of a problem of which nobody knows whether it was recorded all the same. */
export const UNSURE = 'device-unsure';
