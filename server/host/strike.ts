/**
 * Striking out: which entries go, which others could not stand without them, and what is recorded
 * for it. Striking a strike brings its entry back.
 */
import type { Entry, NewEntry } from '../contract/entry.ts';
import { type Refusal, refuse } from '../contract/streams.ts';
import type { TextRef } from '../contract/text.ts';
import { type Accepted, type Decidable, named } from './decide.ts';
import type { Desk } from './desk.ts';
import type { Resting } from './host.ts';
import { struck } from './order.ts';
import type { Registry } from './registry.ts';
import { STRUCK, type Struck } from './strike-events.ts';
import { StrikeWalk } from './strike-walk.ts';

/** Input of `entry.strike`, with a reference in the place of the reason. */
export interface StrikeAsked {
  readonly seqs?: readonly number[];
  readonly command?: string;
  readonly why?: TextRef;
  readonly withResting?: boolean;
}

export type StrikeDecided = Accepted | (Refusal & { readonly others?: readonly Resting[] });

/** @param order its input is a `StrikeAsked` */

export async function decideStrike(registry: Registry, desk: Desk, order: Decidable): Promise<StrikeDecided> {
  const asked = order.input as StrikeAsked;
  const targets = await targetsOf(desk, asked);
  if (!Array.isArray(targets)) return targets as Refusal;
  await desk.load(targets.flatMap((entry) => entry.streams));
  const open = targets.filter((entry) => !isStruck(desk, entry));
  if (open.length === 0) return { entries: [], read: streamsOf(targets) };
  const walk = new StrikeWalk(registry, desk, open);
  const others = await walk.findResting();
  if ('refused' in others) return others;
  if (others.length > 0 && !asked.withResting) return { ...restsOnIt(open, others), others };
  const all = [...open, ...others.map(({ entry }) => entry)].sort((a, b) => b.seq - a.seq);
  const claims = await claimsBack(desk, all);
  const entries = all.map((entry, part) => strikeOf(entry, part, order, claims.get(entry)));
  return { entries, read: walk.read() };
}

function strikeOf(
  entry: Entry,
  part: number,
  order: Decidable,
  claims?: Pick<Entry, 'claims' | 'releases'>,
): Entry {
  const { at, next, recordedAt, who, device, clock } = order;
  const { why } = order.input as StrikeAsked;
  const data: Struck = { seq: entry.seq, ...(why ? { why } : {}) };
  const { command, happenedAt } = at;
  const seq = next + part;
  return {
    seq,
    command,
    part,
    name: STRUCK,
    version: 1,
    happenedAt,
    recordedAt,
    who,
    device,
    ...(clock === undefined ? {} : { clock }),
    streams: entry.streams,
    ...claims,
    data,
  };
}

async function targetsOf(desk: Desk, asked: StrikeAsked): Promise<Entry[] | Refusal> {
  if (asked.command !== undefined) {
    const entries = await desk.entriesOf(asked.command);
    if (entries.length > 0) return [...entries];
    return refuse(
      'no-such-entry',
      'Nothing was recorded by that command, so there is nothing to take back.',
      'command',
    );
  }
  const entries: Entry[] = [];
  for (const [index, seq] of [...new Set(asked.seqs)].entries()) {
    const entry = await desk.entry(seq);
    if (!entry) return refuse('no-such-entry', `There is no entry ${seq}.`, `seqs.${index}`);
    entries.push(entry);
  }
  return entries;
}

const streamsOf = (entries: readonly Entry[]): string[] => [
  ...new Set(entries.flatMap((entry) => entry.streams)),
];

/** The strikes of an entry stand in all of its streams. */
const isStruck = (desk: Desk, entry: Entry): boolean =>
  struck(desk.history(entry.streams[0]!)!.entries).has(entry.seq);

function restsOnIt(open: readonly Entry[], others: readonly Resting[]): Refusal {
  const what = open.length === 1 ? named(open[0]!) : `these ${open.length} entries`;
  const [first] = others;
  const rest = others.length === 1 ? 'one other entry rests' : `${others.length} other entries rest`;
  return refuse(
    'others-rest-on-it',
    `Without ${what}, ${rest} on nothing: ${named(first!)}${others.length > 1 ? ' and more' : ''} (${first!.why}) Strike out all of them together, or none.`,
  );
}

/**
 * A struck entry gives back what it claimed and takes again what it had given up; a strike that is
 * struck does the same. Only what is still held for the entry can be given back.
 */
async function claimsBack(desk: Desk, entries: readonly Entry[]) {
  const held = await desk.holders(entries.flatMap((entry) => entry.claims ?? []));
  const back = new Map<Entry, Pick<NewEntry, 'claims' | 'releases'>>();
  for (const entry of entries) {
    const releases = (entry.claims ?? []).filter((claim) => heldFor(desk, entry, held.get(claim)));
    const claims = entry.releases ?? [];
    back.set(entry, { ...(claims.length ? { claims } : {}), ...(releases.length ? { releases } : {}) });
  }
  return back;
}

/** Whether the holder is the entry itself, or the strike of a strike that brought it back. */
function heldFor(desk: Desk, entry: Entry, holder: number | undefined): boolean {
  if (holder === undefined) return false;
  const { entries } = desk.history(entry.streams[0]!)!;
  let at: number | undefined = holder;
  while (at !== undefined && at !== entry.seq) {
    const strike = entries.find(({ seq, name }) => seq === at && name === STRUCK);
    at = strike && (strike.data as Struck).seq;
  }
  return at === entry.seq;
}
