/** Brings the kept day up to the log: what is new in the streams that are kept, and the whole of new ones. */
import type { Entry } from '../../server/contract/entry.ts';
import type { Day } from './database.ts';
import type { KeptDay } from './kept.ts';

interface DayTold {
  readonly head: { readonly count: number; readonly hash: string };
  readonly zone: string;
  readonly streams: readonly string[];
  readonly names: Readonly<Record<string, string | null>>;
}

interface LogPage {
  readonly entries: readonly Entry[];
  readonly next: number | null;
}

type Ask = <T>(address: string) => Promise<T>;

/** Few, as reading an answer holds up a touch meanwhile. */
const STREAMS_AT_ONCE = 24;
const ENTRIES_AT_ONCE = 400;
/** More new entries than this, and the streams are fetched whole: an import went by. */
const MOST_NEW = 5_000;

/** @returns whether anything changed */
export async function fetchDay(kept: KeptDay, ask: Ask, now: () => number): Promise<boolean> {
  const [before, told] = [await kept.day(), await ask<DayTold>('/api/day')];
  const { head, zone, streams, names } = told;
  const day: Day = { count: head.count, hash: head.hash, at: now(), zone, streams, names };
  const same = before?.count === head.count && before.hash === head.hash;
  // A log that is shorter than it was, or another one, was restored.
  const grew = before !== undefined && (same || before.count < head.count);
  const carriesOn = grew && head.count - before.count <= MOST_NEW;
  const had = new Set(carriesOn ? before.streams : []);
  const wanted = new Set(streams);
  const recent = carriesOn ? await since(before.count, head.count, ask) : [];
  const whole = await wholly(
    streams.filter((stream) => !had.has(stream)),
    ask,
  );
  const fresh = recent.filter((entry) => entry.streams.some((stream) => wanted.has(stream)));
  // What was recorded while this was fetched comes next time, with all that belongs to it.
  const entries = [...whole, ...fresh].filter(({ seq }) => seq <= head.count);
  if (recent.some((entry) => entry.name === 'person.forgotten')) await kept.dropAnswers();
  await kept.keep(day, entries, !carriesOn);
  return !same || whole.length > 0;
}

async function since(after: number, until: number, ask: Ask): Promise<Entry[]> {
  const entries: Entry[] = [];
  for (let at: number | null = after; at !== null && at < until; ) {
    const page: LogPage = await ask<LogPage>(`/api/log?after=${at}&limit=${ENTRIES_AT_ONCE}`);
    entries.push(...page.entries);
    at = page.next;
  }
  return entries;
}

async function wholly(streams: readonly string[], ask: Ask): Promise<Entry[]> {
  const entries: Entry[] = [];
  for (let from = 0; from < streams.length; from += STREAMS_AT_ONCE) {
    const some = streams.slice(from, from + STREAMS_AT_ONCE);
    const query = new URLSearchParams(some.map((stream) => ['stream', stream]));
    entries.push(...(await ask<{ entries: Entry[] }>(`/api/streams?${query}`)).entries);
  }
  return entries;
}
