/**
 * The order in which entries happened, which is not the order they were recorded in. Pure.
 *
 * The entries of one command are a unit: they stand together, in their own order, at the rank of
 * the last of them. Units stand by studio day. Within a day, those with a moment stand by instant,
 * then by seq; one with only a day stands by rank and seq, after the last timed unit whose rank is
 * no higher than its own, and which is not later than its own recording: nothing is written down
 * before it happens.
 */
import type { Entry } from '../contract/entry.ts';
import { STRUCK, type Struck } from './strike-events.ts';

/** The part of the registry that ordering needs. */
export interface Ranks {
  rank(entry: Entry): number | undefined;
}

interface Unit {
  readonly entries: readonly Entry[];
  readonly day: string;
  /** Milliseconds; undefined when only the day is known. */
  readonly instant: number | undefined;
  readonly rank: number;
  readonly seq: number;
  readonly recordedAt: string;
}

/** A moment carries its offset, so its first ten characters are its day in the studio. */
export const dayOf = (happenedAt: string): string => happenedAt.slice(0, 10);

const instantOf = (happenedAt: string): number | undefined =>
  happenedAt.length > 10 ? Date.parse(happenedAt) : undefined;

/** Milliseconds; without a bound for what is still being decided. */
const recordedOf = (recordedAt: string): number =>
  recordedAt === '' ? Number.POSITIVE_INFINITY : Date.parse(recordedAt);

/** Entries whose plugin was taken out stand after all others of their day. */
const RANK_OF_UNKNOWN = 1_000;

function rankOf(entries: readonly Entry[], ranks: Ranks): number {
  for (let index = entries.length - 1; index >= 0; index--) {
    const rank = ranks.rank(entries[index]!);
    if (rank !== undefined) return rank;
  }
  return RANK_OF_UNKNOWN;
}

/** The unit asked for last: a firing's entry is asked for by each of the many streams it belongs to. */
let latest: { readonly ranks: Ranks; readonly unit: Unit } | undefined;

function unitOf(entries: readonly Entry[], ranks: Ranks): Unit {
  if (latest?.unit.entries === entries && latest.ranks === ranks) return latest.unit;
  const { happenedAt, seq, recordedAt } = entries[0]!;
  const rank = rankOf(entries, ranks);
  const unit = { entries, day: dayOf(happenedAt), instant: instantOf(happenedAt), rank, seq, recordedAt };
  latest = { ranks, unit };
  return unit;
}

function unitsOf(entries: readonly Entry[], ranks: Ranks): Unit[] {
  return [...byCommand(entries).values()].map((parts) =>
    unitOf(parts.length > 1 ? parts.toSorted((a, b) => a.part - b.part) : parts, ranks),
  );
}

/** Entries by their command, in the order the commands come first. */
export function byCommand(entries: readonly Entry[]): Map<string, Entry[]> {
  const groups = new Map<string, Entry[]>();
  for (const entry of entries) {
    const group = groups.get(entry.command);
    if (group) group.push(entry);
    else groups.set(entry.command, [entry]);
  }
  return groups;
}

interface Slotted {
  readonly unit: Unit;
  /** How many timed units stand before it. */
  readonly slot: number;
}

const bySlot = (a: Slotted, b: Slotted): number =>
  a.slot - b.slot || a.unit.rank - b.unit.rank || a.unit.seq - b.unit.seq;

function orderDay(units: readonly Unit[]): Unit[] {
  const timed = units.filter((unit) => unit.instant !== undefined);
  timed.sort((a, b) => a.instant! - b.instant! || a.seq - b.seq);
  const slotOf = ({ rank, recordedAt }: Unit): number => {
    const recorded = recordedOf(recordedAt);
    return timed.findLastIndex((other) => other.rank <= rank && other.instant! <= recorded) + 1;
  };
  const dayOnly = units.filter((unit) => unit.instant === undefined);
  const slotted = dayOnly.map((unit) => ({ unit, slot: slotOf(unit) })).sort(bySlot);
  const ordered: Unit[] = [];
  let next = 0;
  for (const { unit, slot } of slotted) {
    while (next < slot) ordered.push(timed[next++]!);
    ordered.push(unit);
  }
  return [...ordered, ...timed.slice(next)];
}

/** The entries in the order they happened. */
export function inOrder(entries: readonly Entry[], ranks: Ranks): Entry[] {
  if (entries.length < 2) return [...entries];
  const days = new Map<string, Unit[]>();
  for (const unit of unitsOf(entries, ranks)) {
    const day = days.get(unit.day);
    if (day) day.push(unit);
    else days.set(unit.day, [unit]);
  }
  const sorted = [...days.keys()].sort();
  return sorted.flatMap((day) => orderDay(days.get(day)!).flatMap((unit) => unit.entries));
}

/** Enough of an ordered list to tell whether more entries simply follow it. */
export interface End {
  readonly day: string;
  /** The last timed unit of that day. */
  readonly timed?: { readonly instant: number; readonly rank: number };
  /** Of the units of that day that have no moment: the highest rank, and when the last was recorded. */
  readonly untimed?: { readonly rank: number; readonly recorded: number };
}

/** The end of an ordered list after one more unit, which stands last in it. */
export function endAfter(end: End | undefined, unit: readonly Entry[], ranks: Ranks): End {
  const { day, instant, rank, recordedAt } = unitOf(unit, ranks);
  const same = end?.day === day ? end : undefined;
  if (instant !== undefined) return { day, timed: { instant, rank }, untimed: same?.untimed };
  const recorded = recordedOf(recordedAt);
  const others = same?.untimed;
  const untimed = {
    rank: Math.max(rank, others?.rank ?? rank),
    recorded: Math.max(recorded, others?.recorded ?? recorded),
  };
  return { day, timed: same?.timed, untimed };
}

/** Whether something newly recorded at that time and rank follows everything, and moves nothing. */
export function followsEnd(
  end: End | undefined,
  happenedAt: string,
  rank: number,
  recorded = Number.POSITIVE_INFINITY,
): boolean {
  if (end === undefined) return true;
  const day = dayOf(happenedAt);
  if (day !== end.day) return day > end.day;
  const instant = instantOf(happenedAt);
  const { timed, untimed } = end;
  if (instant === undefined)
    return (
      (untimed === undefined || untimed.rank <= rank) &&
      (timed === undefined || (timed.rank <= rank && timed.instant <= recorded))
    );
  // What has only a day stays where it is when its rank is lower, or it was written down before.
  return (
    (timed === undefined || timed.instant <= instant) &&
    (untimed === undefined || untimed.rank < rank || untimed.recorded < instant)
  );
}

/**
 * Whether newly recorded entries of one command follow an ordered list, so that its state can be
 * carried on instead of being folded anew. Never for strikes, nor for what may be the rest of a
 * command whose beginning is in the list already: reading in pages can cut one in two, and the
 * whole stands where its last entry belongs.
 */
export function standsLast(end: End | undefined, unit: readonly Entry[], ranks: Ranks): boolean {
  const { happenedAt, part } = unit[0]!;
  if (part > 0 || unit.some((entry) => entry.name === STRUCK)) return false;
  return followsEnd(end, happenedAt, rankOf(unit, ranks), recordedOf(unit[0]!.recordedAt));
}

/**
 * Seq of each entry that is struck out, with the seq of the strike that does it. A strike can be
 * struck itself, so strikes are walked from the newest back.
 */
export function struck(entries: readonly Entry[]): Map<number, number> {
  const by = new Map<number, number>();
  const strikes = entries.filter((entry) => entry.name === STRUCK).sort((a, b) => b.seq - a.seq);
  for (const strike of strikes) if (!by.has(strike.seq)) by.set((strike.data as Struck).seq, strike.seq);
  return by;
}

/** The entries that count: neither struck out nor strikes themselves. */
export function effective(entries: readonly Entry[]): readonly Entry[] {
  if (!entries.some((entry) => entry.name === STRUCK)) return entries;
  const gone = struck(entries);
  return entries.filter((entry) => entry.name !== STRUCK && !gone.has(entry.seq));
}
