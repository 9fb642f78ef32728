/**
 * When something was recorded, here or on another device, what is on screen is asked for again. Each answer
 * says how many entries the log had when it was asked for: what knows of the newest is not asked for twice.
 */
import { signal } from '@preact/signals';
import { hear, reach } from './reach.ts';

/** Goes up whenever what is on screen may be older than the log. */
export const recorded = signal(0);

/** Milliseconds in which what is recorded in a row counts as one. */
const IN_A_ROW = 250;

/** Entries in the log, as its live stream told last; and when all was asked for last. */
let newest: number | undefined;
let before: number | undefined;
/** Entries that the oldest answer knew of, of those that came since all was asked for. */
let oldest: number | undefined;
/** Questions on their way. */
let asking = 0;
let soon: ReturnType<typeof setTimeout> | undefined;

export const nowRecorded = () => {
  clearTimeout(soon);
  soon = undefined;
  oldest = undefined;
  before = newest;
  recorded.value += 1;
};

function lookSoon(): void {
  soon ??= setTimeout(() => {
    soon = undefined;
    if (newest === undefined) return;
    // Where nothing on the screen was asked for, what is kept for work without the network still is older.
    const known = oldest ?? (asking === 0 ? before : newest);
    if (known !== undefined && newest > known) nowRecorded();
  }, IN_A_ROW);
}

/** A question goes out. @returns to be called with the entries in the log when it was asked, where the answer says so */
export function nowAsking(): (count?: number) => void {
  asking += 1;
  return (count) => {
    asking -= 1;
    if (count === undefined) return;
    hear(count);
    oldest = Math.min(oldest ?? count, count);
    if (newest !== undefined && newest > oldest) lookSoon();
  };
}

/** The log's live stream said how many entries there are. */
export function heardOf(count: number): void {
  before ??= count;
  newest = count;
  hear(count);
  lookSoon();
}

function countIn(data: string): number {
  try {
    return Number((JSON.parse(data) as { count?: number }).count ?? -1);
  } catch {
    return -1;
  }
}

/** Server-sent events: one a group of new entries. The browser reconnects by itself. */
export function followLog(): () => void {
  const source = new EventSource('/api/log/live');
  source.addEventListener('message', (event: MessageEvent<string>) => {
    if (reach.peek() === 'away') reach.value = 'here';
    heardOf(countIn(event.data));
  });
  return () => {
    clearTimeout(soon);
    soon = undefined;
    source.close();
  };
}
