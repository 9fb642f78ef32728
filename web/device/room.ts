/**
 * Whether this device keeps what it is given: asked to keep it for good, and a small mark in another
 * place that shows when the browser has cleared what waited.
 */
import type { WaitingHere } from '../api/reach.ts';

const MARK = 'wareboard-waiting';
/** Browsers shorten it as they like. */
const A_YEAR = 31_536_000;

/** 'count.oldest' in a cookie: clearing a page's storage for want of room leaves cookies alone. */
export function markWaiting({ waiting, refused, oldest }: WaitingHere): void {
  const count = waiting + refused;
  const value = count > 0 ? `${count}.${oldest ?? Date.now()}` : '';
  const life = count > 0 ? A_YEAR : 0;
  // biome-ignore lint/suspicious/noDocumentCookie: the newer interface is missing in two browsers
  document.cookie = `${MARK}=${value}; path=/; max-age=${life}; SameSite=Strict`;
}

export function markedWaiting(
  cookie: string = document.cookie,
): { count: number; oldest: number } | undefined {
  const value = cookie
    .split('; ')
    .find((pair) => pair.startsWith(`${MARK}=`))
    ?.slice(MARK.length + 1);
  const [count = 0, oldest = 0] = (value ?? '').split('.').map(Number);
  return count > 0 ? { count, oldest } : undefined;
}

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
