/**
 * Where a picture is to be had: what was taken on this page a moment ago is at hand; what waits to be
 * sent, and small ones of the day's ware, are on this device; the rest is the studio's.
 */
import { outboxHere } from '../api/offline.ts';
import { reach, waitingHere } from '../api/reach.ts';

const taken = new Map<string, string>();
/** Kept in sight at most; the oldest goes first. */
const MOST = 30;

export function remember(sha256: string, blob: Blob): void {
  if (taken.has(sha256)) return;
  taken.set(sha256, URL.createObjectURL(blob));
  const [oldest] = taken;
  if (taken.size <= MOST || !oldest) return;
  URL.revokeObjectURL(oldest[1]);
  taken.delete(oldest[0]);
}

/** Its address where it was taken on this page. */
export const atHand = (sha256: string): string | undefined => taken.get(sha256);

export const studioAddress = (sha256: string, size: 'small' | 'whole'): string =>
  size === 'small' ? `/api/files/${sha256}?size=small` : `/api/files/${sha256}`;

export type Place = 'studio' | 'device';

/** Where it is looked for, in that order: what waits here the studio does not have. */
export function places(): readonly Place[] {
  const { waiting, refused } = waitingHere.peek();
  const hereFirst = reach.peek() === 'away' || waiting + refused > 0;
  return hereFirst ? ['device', 'studio'] : ['studio', 'device'];
}

/** As this device keeps it, whole where it waits to be sent; undefined where it does not. */
export async function onDevice(sha256: string): Promise<Blob | undefined> {
  try {
    const here = await outboxHere();
    const [waiting] = (await here?.store.files([sha256])) ?? [];
    return waiting?.blob ?? (await here?.kept.small(sha256));
  } catch {
    return undefined;
  }
}
