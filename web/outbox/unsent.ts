/** One thing that was noted on this device and is not in the studio's log yet. */
import type { Entry } from '../../server/contract/entry.ts';
import type { Refusal } from '../../server/contract/streams.ts';

/** Why the studio did not take it, and what another device had recorded. */
export interface Refused extends Refusal {
  readonly meanwhile?: readonly Entry[];
}

export interface Unsent {
  /** Place in the order of noting; given by the database. */
  readonly n: number;
  /** Id of the order: UUIDv7. Sent again under the same id, it is recorded once. */
  readonly id: string;
  readonly command: string;
  readonly input: object;
  /** The day or moment that the potter named. */
  readonly happenedAt?: string;
  /** What this device's clock showed, with its offset. */
  readonly clock: string;
  /** Entries of the log that this device knew of; absent where it had never heard. */
  readonly seen?: number;
  /** Ids of unsent orders that it rests on. */
  readonly needs: readonly string[];
  /** What was done, as it was said on the screen. */
  readonly sentence: string;
  /** The screen it was done on. */
  readonly where: string;
  /** SHA-256 of the pictures that go up before it. */
  readonly files?: readonly string[];
  readonly state: 'waiting' | 'refused' | 'left-out';
  readonly refused?: Refused;
  /** Entries in the log when it was refused: it is asked again when there are more. */
  readonly refusedAt?: number;
  /** Times the studio failed over it. */
  readonly failures?: number;
  /** Why it was left out, in the potter's words. */
  readonly why?: string;
}

/** One that the studio has taken: it shows as noted until the kept day holds its entries. */
export interface SentOrder extends Unsent {
  /** Seq of its last entry. */
  readonly last: number;
}

export type NewUnsent = Omit<Unsent, 'n' | 'state'>;

/** Ids that are refused, and those that wait with one that is. */
export function stuckIn(entries: readonly Unsent[]): { refused: Set<string>; held: Set<string> } {
  const refused = new Set(entries.filter((it) => it.state === 'refused').map((it) => it.id));
  const held = new Set<string>();
  for (const it of entries)
    if (it.state === 'waiting' && it.needs.some((id) => refused.has(id) || held.has(id))) held.add(it.id);
  return { refused, held };
}
