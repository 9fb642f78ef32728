/** One stream as it is held in memory while commands are decided: its entries, in both orders, and its state. */
import type { Entry } from '../contract/entry.ts';
import { type StreamKind, streamKey, streamPrefix } from '../contract/streams.ts';
import { counted, fold } from './fold.ts';
import { byCommand, dayOf, type End, endAfter, followsEnd, inOrder, standsLast } from './order.ts';
import type { Registry } from './registry.ts';

/** When something is to happen, and its rank within the day. */
export interface Place {
  readonly happenedAt: string;
  readonly rank: number;
}

/** The streams in memory; undefined for one that has to be loaded first. */
export type Histories = (stream: string) => History | undefined;

export class History {
  /** In log order, struck ones and strikes too. */
  readonly entries: Entry[] = [];
  /** Those that count, in the order they happened. */
  private ordered: Entry[] = [];
  private end: End | undefined;
  private state: unknown;
  readonly kind: StreamKind | undefined;

  constructor(
    private readonly registry: Registry,
    readonly stream: string,
    entries: readonly Entry[] = [],
  ) {
    this.kind = registry.kind(streamPrefix(stream))?.it;
    this.state = this.kind?.initial(streamKey(stream));
    if (entries.length > 0) this.add(entries);
  }

  /** Takes newly recorded entries, whole commands at a time. */
  add(entries: readonly Entry[]): void {
    this.entries.push(...entries);
    const units = [...byCommand(entries).values()];
    const inTurn = units.every((unit) => {
      if (!standsLast(this.end, unit, this.registry)) return false;
      this.carryOn(unit.map(this.registry.bring));
      return true;
    });
    if (!inTurn) this.foldAnew();
  }

  private carryOn(unit: readonly Entry[]): void {
    this.ordered.push(...unit);
    this.end = endAfter(this.end, unit, this.registry);
    if (this.kind) for (const entry of unit) this.state = this.kind.evolve(this.state, entry);
  }

  private foldAnew(): void {
    this.ordered = [];
    this.end = undefined;
    this.state = this.kind?.initial(streamKey(this.stream));
    const ordered = counted(this.entries, this.registry);
    for (const unit of byCommand(ordered).values()) this.carryOn(unit);
  }

  /** The state with all that is recorded. */
  latest(): unknown {
    return this.state;
  }

  /** The entries that would stand before something that happens at that place. */
  before(place: Place): readonly Entry[] {
    if (followsEnd(this.end, place.happenedAt, place.rank)) return this.ordered;
    const mark = placeholder(place);
    const ranks = { rank: (entry: Entry) => (entry === mark ? place.rank : this.registry.rank(entry)) };
    const ordered = inOrder([...this.ordered, mark], ranks);
    return ordered.slice(0, ordered.indexOf(mark));
  }

  /** The state before something that happens at that place. */
  stateBefore(place: Place): unknown {
    if (!this.kind) return undefined;
    const before = this.before(place);
    return before === this.ordered ? this.state : fold(this.kind, streamKey(this.stream), before);
  }

  /** The entries of the place's day, in order. */
  ofDay(happenedAt: string): Entry[] {
    const day = dayOf(happenedAt);
    if (this.end === undefined || this.end.day < day) return [];
    return this.ordered.filter((entry) => dayOf(entry.happenedAt) === day);
  }

  /** The first entry that could not stand if these were recorded as well, and why. */
  impossible(entries: readonly Entry[]): { readonly entry: Entry; readonly why: string } | undefined {
    const { kind } = this;
    if (!kind) return undefined;
    if (standsLast(this.end, entries, this.registry)) return firstIllegal(kind, this.state, entries);
    const now = inOrder([...this.ordered, ...entries], this.registry);
    const from = now.findIndex((entry, index) => entry !== this.ordered[index]);
    const state = fold(kind, streamKey(this.stream), now.slice(0, from));
    const found = firstIllegal(kind, state, now.slice(from));
    if (!found || entries.includes(found.entry)) return found;
    const standing = this.standing();
    return firstIllegal(
      kind,
      state,
      now.slice(from),
      (entry) => entries.includes(entry) || standing.has(entry.seq),
    );
  }

  /** Seqs of the entries that can stand as it is. Others were allowed by an older release: a new entry does not answer for them. */
  standing(): ReadonlySet<number> {
    const standing = new Set<number>();
    if (!this.kind) return standing;
    let state = this.kind.initial(streamKey(this.stream));
    for (const entry of this.ordered) {
      if (this.kind.legal(state, entry) === undefined) standing.add(entry.seq);
      state = this.kind.evolve(state, entry);
    }
    return standing;
  }
}

function firstIllegal(
  kind: StreamKind,
  before: unknown,
  entries: readonly Entry[],
  answersFor: (entry: Entry) => boolean = () => true,
) {
  let state = before;
  for (const entry of entries) {
    const why = answersFor(entry) ? kind.legal(state, entry) : undefined;
    if (why !== undefined) return { entry, why };
    state = kind.evolve(state, entry);
  }
  return undefined;
}

/** Stands for the entry that is being decided: later in the log than everything there is. */
const placeholder = ({ happenedAt }: Place): Entry => ({
  seq: Number.MAX_SAFE_INTEGER,
  command: '',
  part: 0,
  name: '',
  version: 1,
  happenedAt,
  recordedAt: '',
  who: '',
  device: '',
  streams: [],
  data: undefined,
});
