/**
 * Whether this device keeps what it is given: asked to keep it for good, and small marks in another
 * place that show when the browser has cleared what waited.
 */
import type { WaitingHere } from '../api/reach.ts';

/** Clearing a page's storage for want of room leaves cookies alone. */
const WAITING = 'wareboard-waiting';
const GONE = 'wareboard-gone';
/** Browsers shorten it as they like. */
const A_YEAR = 31_536_000;

export interface Counted {
  readonly count: number;
  /** When the oldest was noted, in milliseconds. */
  readonly oldest: number;
}

/** What waited, and in which making of the database. */
export interface Marked extends Counted {
  readonly born?: string;
}

function mark(name: string, value: string): void {
  // biome-ignore lint/suspicious/noDocumentCookie: the newer interface is missing in two browsers
  document.cookie = `${name}=${value}; path=/; max-age=${value ? A_YEAR : 0}; SameSite=Strict`;
}

function marked(name: string, cookie: string): Marked | undefined {
  const value = cookie
    .split('; ')
    .find((pair) => pair.startsWith(`${name}=`))
    ?.slice(name.length + 1);
  const [count, oldest, born] = (value ?? '').split('.');
  if (!(Number(count) > 0)) return undefined;
  return { count: Number(count), oldest: Number(oldest), ...(born ? { born } : {}) };
}

export function markWaiting({ waiting, refused, oldest }: WaitingHere, born = ''): void {
  const count = waiting + refused;
  mark(WAITING, count > 0 ? `${count}.${oldest ?? Date.now()}.${born}` : '');
}

export const markedWaiting = (cookie: string = document.cookie): Marked | undefined =>
  marked(WAITING, cookie);

/** What was cleared stays marked until the user has seen it. */
export function markGone(gone: Counted | undefined): void {
  mark(GONE, gone ? `${gone.count}.${gone.oldest}` : '');
}

export const markedGone = (cookie: string = document.cookie): Counted | undefined => marked(GONE, cookie);

/** Asks the browser not to clear what is kept here. @returns whether it promised */
export async function askToStay(): Promise<boolean> {
  try {
    return (await navigator.storage?.persisted?.()) || ((await navigator.storage?.persist?.()) ?? false);
  } catch {
    return false;
  }
}

export const isFull = (error: unknown): boolean =>
  error instanceof DOMException && error.name === 'QuotaExceededError';
