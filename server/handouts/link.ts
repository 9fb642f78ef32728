/** The signed address of something that may be fetched: what, until when and how often stand in it, and a keyed hash. */
import { createHmac, timingSafeEqual } from 'node:crypto';

export interface Link {
  readonly plugin: string;
  readonly handout: string;
  readonly key: string;
  /** Last day. */
  readonly until: string;
  readonly most: string;
}

/** Root of all such addresses. */
export const FETCH = '/fetch';
/** HMAC-SHA-256 cut to its first half, the least that RFC 2104, 5 holds to be sound. */
const BYTES = 16;

function signature(key: string, { plugin, handout, key: name, until, most }: Link): Buffer {
  return createHmac('sha256', key)
    .update(JSON.stringify([plugin, handout, name, until, most]))
    .digest()
    .subarray(0, BYTES);
}

/** Path of the address. @param key what links are signed with */
export function signedPath(key: string, link: Link): string {
  const { plugin, handout, key: name, until, most } = link;
  const parts = [plugin, handout, name, until, most].map(encodeURIComponent);
  return `${FETCH}/${parts.join('/')}/${signature(key, link).toString('base64url')}`;
}

/** In a time that tells nothing of how much of it was right. */
export function isSigned(key: string, link: Link, given: string): boolean {
  const right = signature(key, link);
  const brought = Buffer.from(given, 'base64url');
  // Two spellings of the same bytes are not the same address.
  const spelled = brought.length === right.length && brought.toString('base64url') === given;
  return timingSafeEqual(right, spelled ? brought : Buffer.alloc(BYTES)) && spelled;
}
