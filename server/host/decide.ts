/**
 * Deciding one command: on the streams as they were at the moment it speaks of, and then against
 * everything that is recorded as having happened later. Pure.
 */
import type { Entry } from '../contract/entry.ts';
import type { At } from '../contract/plugin.ts';
import { isRefusal, type Recorded, type Refusal, refuse } from '../contract/streams.ts';
import { withoutAbsent } from './absent.ts';
import { dayInWords } from './days.ts';
import type { Histories, History, Place } from './history.ts';
import type { Registry } from './registry.ts';
import { View } from './view.ts';

export interface Decidable {
  readonly command: string;
  /** Parsed, with references in the place of free texts. */
  readonly input: unknown;
  readonly at: At;
  /** The seq that the first entry would get, and when and by whom it would be recorded. */
  readonly next: number;
  readonly recordedAt: string;
  readonly who: string;
  readonly device: string;
  readonly clock?: string;
}

export type Decided =
  | Refusal
  /** Load these, then ask again. */
  | { readonly missing: readonly string[] }
  | Accepted;

/** What is to be recorded, as it would stand in the log. No entries: it was so already. */
export interface Accepted {
  readonly entries: readonly Entry[];
  /** Every stream that the decision rests on or touches. */
  readonly read: readonly string[];
}

/** @throws PluginFault when the plugin breaks the contract */
export function decide(registry: Registry, order: Decidable, histories: Histories): Decided {
  let refusal: Refusal | undefined;
  let misplaced: Attempt | undefined;
  const tried = new Set<number>();
  let ranks = [Number.POSITIVE_INFINITY];
  while (ranks.length > 0) {
    const rank = ranks.shift()!;
    tried.add(rank);
    const attempt = attemptAt(rank, registry, order, histories);
    if ('missing' in attempt) return attempt;
    if ('refused' in attempt) refusal ??= attempt;
    else if (standsWhereDecided(attempt, registry)) return judged(attempt, order, histories);
    else misplaced ??= attempt;
    if (tried.size === 1) ranks = earlierRanks(registry, order, histories);
  }
  return refusal ?? judged(misplaced!, order, histories);
}

/** A command of this plugin does what the contract does not allow. */
export class PluginFault extends Error {
  override readonly name = 'PluginFault';
}

interface Attempt {
  readonly entries: readonly Entry[];
  readonly view: View;
}

/*
 * The rank of what is recorded is only known once it is decided, yet it says which happenings of
 * that day come before. So the whole day is taken as past at first; if what comes out belongs
 * earlier, it is decided again on less and less of the day, until it stands where it was decided.
 */
function attemptAt(
  rank: number,
  registry: Registry,
  order: Decidable,
  histories: Histories,
): Attempt | Refusal | { readonly missing: readonly string[] } {
  const { plugin, it: command } = registry.command(order.command)!;
  const place: Place = { happenedAt: order.at.happenedAt, rank };
  const asked = command.streams(order.input, new View(place, histories));
  const missing = asked.filter((stream) => !histories(stream));
  if (missing.length > 0) return { missing };
  const who = `Plugin “${plugin}”, command ${order.command}`;
  const view = new View(place, histories, {
    asked: new Set(asked),
    fault: (stream) =>
      new PluginFault(`${who}: the decision reads ${stream}, which its “streams” did not ask for.`),
  });
  const decision = command.decide(order.input, view, order.at);
  if (isRefusal(decision)) return decision;
  for (const recorded of decision) checkShape(recorded, registry, who);
  const touched = decision.flatMap((recorded) => recorded.streams).filter((stream) => !histories(stream));
  if (touched.length > 0) return { missing: [...new Set(touched)] };
  return { entries: decision.map((recorded, part) => provisional(recorded, part, registry, order)), view };
}

function checkShape(recorded: Recorded, registry: Registry, who: string): void {
  const known = registry.event(recorded.name);
  if (!known) throw new PluginFault(`${who}: records ${recorded.name}, an event that no plugin declares.`);
  if (recorded.streams.length === 0) throw new PluginFault(`${who}: records ${recorded.name} in no stream.`);
  const fits = known.it.shape.safeParse(recorded.data);
  if (fits.success) return;
  const [issue] = fits.error.issues;
  throw new PluginFault(
    `${who}: the data of ${recorded.name} does not fit its shape (${issue!.path.join('.') || 'as a whole'}: ${issue!.message}).`,
  );
}

/** Ranks just below those of the same day's happenings, the highest first. */
function earlierRanks(registry: Registry, order: Decidable, histories: Histories): number[] {
  const { it: command } = registry.command(order.command)!;
  const place: Place = { happenedAt: order.at.happenedAt, rank: Number.POSITIVE_INFINITY };
  const asked = command.streams(order.input, new View(place, histories));
  const ofDay = asked.flatMap((stream) => histories(stream)?.ofDay(place.happenedAt) ?? []);
  const ranks = new Set(ofDay.map((entry) => registry.rank(entry)).filter((rank) => rank !== undefined));
  return [...ranks].sort((a, b) => b - a).map((rank) => rank - JUST_BELOW);
}

/** Less than any two ranks are apart. */
const JUST_BELOW = 1e-6;

function standsWhereDecided({ entries, view }: Attempt, registry: Registry): boolean {
  if (entries.length === 0) return true;
  return view.histories().every((history) => {
    const here = entries.filter((entry) => entry.streams.includes(history.stream));
    const last = (here.length > 0 ? here : entries).at(-1)!;
    const rank = registry.rank(last)!;
    return history.before({ happenedAt: last.happenedAt, rank }).length === history.before(view.place).length;
  });
}

/** Whether the new entries, and everything that happened after them, can stand together. */
function judged({ entries, view }: Attempt, order: Decidable, histories: Histories): Decided {
  const touched = new Set(entries.flatMap((entry) => entry.streams));
  for (const stream of touched) {
    const here = entries.filter((entry) => entry.streams.includes(stream));
    const found = histories(stream)!.impossible(here);
    if (!found) continue;
    const hint = orderMatters(histories(stream)!, order.at.happenedAt) ? GIVE_THE_TIME : '';
    if (found.entry.command === order.at.command) return refuse('not-possible-then', found.why + hint);
    return refuse(
      'makes-later-impossible',
      `This would make ${named(found.entry)}, impossible: ${found.why}${hint}`,
    );
  }
  const read = new Set([...view.asked(), ...touched]);
  return { entries, read: [...read] };
}

const GIVE_THE_TIME = ' Other things happened on that day too: if the order matters, give the time of day.';

/** Only the day is known, and it has other happenings: their order was reckoned, not said. */
const orderMatters = (history: History, happenedAt: string): boolean =>
  happenedAt.length === DAY && history.ofDay(happenedAt).length > 0;
const DAY = '2026-05-01'.length;

/** 'entry 17, piece graded on 3 May 2026': the way an entry is called in a sentence. */
export const named = (entry: Pick<Entry, 'seq' | 'name' | 'happenedAt'>): string =>
  `entry ${entry.seq}, ${entry.name.replaceAll(/[.-]/g, ' ')} on ${dayInWords(entry.happenedAt)}`;

function provisional(recorded: Recorded, part: number, registry: Registry, order: Decidable): Entry {
  const { name, streams, claims, releases, data } = recorded;
  const entry = {
    seq: order.next + part,
    command: order.at.command,
    part,
    name,
    version: registry.event(name)!.version,
    happenedAt: order.at.happenedAt,
    recordedAt: order.recordedAt,
    who: order.who,
    device: order.device,
    ...(order.clock === undefined ? {} : { clock: order.clock }),
    streams: new Set(streams).size < streams.length ? [...new Set(streams)] : streams,
    data: withoutAbsent(data),
  };
  if (!claims?.length && !releases?.length) return entry;
  return { ...entry, ...(claims?.length ? { claims } : {}), ...(releases?.length ? { releases } : {}) };
}
