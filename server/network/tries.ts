/**
 * Slows the guessing of the passphrase down: waits that grow, never a lock. A device that was signed in before
 * has a count of its own, so that somebody who guesses away does not keep it out; all others share one more
 * count beside that of their address (the idea of OWASP's device cookies).
 */
import { LRUCache } from 'lru-cache';

/** Wrong tries that cost no wait: anybody mistypes. */
const FREE = 3;
const FREE_OVERALL = 12;
/** Longest waits in seconds. */
const LONGEST = 900;
const LONGEST_OVERALL = 30;
/** Milliseconds without a wrong try after which the count begins anew. */
const FORGOTTEN = 24 * 3_600_000;
const FORGOTTEN_OVERALL = 3_600_000;

interface Count {
  readonly wrong: number;
  readonly last: number;
}

export interface Trier {
  /** The device, when it was signed in before. */
  readonly device?: string;
  readonly address: string;
}

export class Tries {
  private readonly counts = new LRUCache<string, Count>({ max: 10_000 });
  private overall: Count = { wrong: 0, last: 0 };

  constructor(private readonly clock: () => Date) {}

  /** Seconds still to wait; 0 lets the try go ahead, and counts it as wrong until `right` is told. */
  begin(trier: Trier): number {
    const now = this.clock().getTime();
    const mine = fresh(this.counts.get(keyOf(trier)), now, FORGOTTEN);
    const all = fresh(this.overall, now, FORGOTTEN_OVERALL);
    const wait = Math.max(
      left(mine, now, waitAfter(mine.wrong, FREE, LONGEST)),
      trier.device === undefined ? left(all, now, waitAfter(all.wrong, FREE_OVERALL, LONGEST_OVERALL)) : 0,
    );
    if (wait > 0) return wait;
    this.counts.set(keyOf(trier), { wrong: mine.wrong + 1, last: now });
    if (trier.device === undefined) this.overall = { wrong: all.wrong + 1, last: now };
    return 0;
  }

  /** The try that was begun was right. */
  right(trier: Trier): void {
    this.counts.delete(keyOf(trier));
    if (trier.device === undefined)
      this.overall = { ...this.overall, wrong: Math.max(0, this.overall.wrong - 1) };
  }
}

const keyOf = ({ device, address }: Trier): string =>
  device === undefined ? `address ${address}` : `device ${device}`;

function fresh(count: Count | undefined, now: number, forgotten: number): Count {
  // A clock that was set back makes nobody wait for it to come round again.
  if (count === undefined || now - count.last > forgotten || now < count.last) return { wrong: 0, last: now };
  return count;
}

/** Seconds from the last wrong try: none, then 2, 4, 8 … up to the longest. */
const waitAfter = (wrong: number, free: number, longest: number): number =>
  wrong < free ? 0 : Math.min(longest, 2 ** Math.min(20, wrong - free + 1));

const left = ({ last }: Count, now: number, wait: number): number =>
  wait === 0 ? 0 : Math.max(0, Math.ceil((last + wait * 1000 - now) / 1000));
