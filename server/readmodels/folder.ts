/**
 * The folded streams at one position of the log. Takes the entries as they come; a stream whose new
 * entries happened last is carried on from its state, any other one is folded again from the log.
 *
 * Memory: a state weighs as many entries as it was folded from. Clean states stay in a cache of
 * bounded weight; changed ones are kept until the batch is written, and the runner ends a batch when
 * they weigh too much. States folded again are made and let go a few hundred at a time.
 */
import { LRUCache } from 'lru-cache';
import type { Entry } from '../contract/entry.ts';
import { type StreamKind, streamKey, streamPrefix } from '../contract/streams.ts';
import { counted } from '../host/fold.ts';
import { byCommand, dayOf, type End, endAfter, standsLast } from '../host/order.ts';
import type { Known, Registry } from '../host/registry.ts';
import { STRUCK } from '../host/strike-events.ts';
import type { EventLog } from '../log/log.ts';
import { Seen } from './seen.ts';

export interface Folded {
  readonly state: unknown;
  readonly end: End | undefined;
  /** Entries it was folded from. */
  readonly weight: number;
}

interface Changed {
  /** At the position the batch began with: undefined where nothing counted, null when only the log can tell. */
  readonly before: Folded | undefined | null;
  now: Folded | undefined;
  /** To be folded again from the log. */
  again: boolean;
}

export interface Change {
  readonly stream: string;
  readonly prefix: string;
  readonly key: string;
  /** Undefined where nothing counts: nothing recorded by then, or all of it struck. */
  readonly before: Folded | undefined;
  readonly after: Folded | undefined;
  /** Why it cannot be folded. */
  readonly failure?: Error;
}

/** Entries that the clean states may be folded from, all together. */
const CACHED = 400_000;
/** Streams fetched from the log at once. */
const FETCH = 250;

export interface FolderOptions {
  readonly log: Pick<EventLog, 'streams'>;
  readonly registry: Registry;
  /** Prefixes of the streams to fold. */
  readonly prefixes: ReadonlySet<string>;
  /** Only what had happened by the end of this day. */
  readonly asAt?: string;
  readonly cached?: number;
}

export class Folder {
  /** Weight of the changed states. */
  weight = 0;
  private changed = new Map<string, Changed>();
  private readonly clean: LRUCache<string, Folded>;
  /** Only from the start of the log is it known which streams are new. */
  private readonly seen: Seen | undefined;

  constructor(
    private readonly options: FolderOptions,
    /** Seq up to which everything is folded in. */
    public seq: number,
  ) {
    this.clean = new LRUCache({ maxSize: options.cached ?? CACHED, sizeCalculation: (it) => it.weight });
    if (seq === 0) this.seen = new Seen();
  }

  get prefixes(): ReadonlySet<string> {
    return this.options.prefixes;
  }

  covers(prefixes: Iterable<string>): boolean {
    return [...prefixes].every((prefix) => this.options.prefixes.has(prefix));
  }

  /** Takes the entries of one command. */
  take(command: readonly Entry[]): void {
    const [first] = command;
    if (command.length === 1) {
      const { streams } = first!;
      for (const stream of streams.length === 1 ? streams : new Set(streams)) this.takeUnit(stream, command);
      return;
    }
    const units = new Map<string, Entry[]>();
    for (const entry of command)
      for (const stream of new Set(entry.streams)) {
        const unit = units.get(stream);
        if (unit) unit.push(entry);
        else units.set(stream, [entry]);
      }
    for (const [stream, unit] of units) this.takeUnit(stream, unit);
  }

  private takeUnit(stream: string, recorded: readonly Entry[]): void {
    const { prefixes, registry, asAt } = this.options;
    const prefix = streamPrefix(stream);
    if (!prefixes.has(prefix)) return;
    const unit =
      asAt === undefined
        ? recorded
        : recorded.filter((it) => it.name === STRUCK || dayOf(it.happenedAt) <= asAt);
    if (unit.length === 0) return;
    const change = this.change(stream);
    if (change.again) return;
    try {
      if (!standsLast(change.now?.end, unit, registry)) {
        change.again = true;
        return;
      }
      const kind = registry.kind(prefix)!.it;
      let state = change.now ? change.now.state : kind.initial(streamKey(stream));
      for (const entry of unit) state = kind.evolve(state, registry.bring(entry));
      const weight = (change.now?.weight ?? 0) + unit.length;
      change.now = { state, end: endAfter(change.now?.end, unit, registry), weight };
      this.weight += unit.length;
    } catch {
      // Folding it again tells whether the stream can be folded at all.
      change.again = true;
    }
  }

  private change(stream: string): Changed {
    const known = this.changed.get(stream);
    if (known) return known;
    const fresh = this.seen?.add(stream) ?? false;
    const cached = this.clean.get(stream);
    const before = cached ?? (fresh ? undefined : null);
    const made: Changed = { before, now: before ?? undefined, again: before === null };
    this.changed.set(stream, made);
    this.weight += cached?.weight ?? 1;
    return made;
  }

  /** Hands over every changed stream, as it was and as it is after entry `upTo`, and moves there. */
  async *changes(upTo: number): AsyncGenerator<readonly Change[]> {
    const again: string[] = [];
    let ready: Change[] = [];
    for (const [stream, change] of this.changed) {
      if (change.again) again.push(stream);
      else ready.push(this.handOver(stream, change.before ?? undefined, change.now));
      if (ready.length < FETCH) continue;
      yield ready;
      ready = [];
    }
    yield ready;
    for (let at = 0; at < again.length; at += FETCH) {
      const names = again.slice(at, at + FETCH);
      const found = await this.options.log.streams(names);
      yield names.map((stream) => this.foldAgain(stream, found.get(stream)?.entries ?? [], upTo));
    }
    this.changed = new Map();
    this.weight = 0;
    this.seq = upTo;
  }

  private handOver(
    stream: string,
    before: Folded | undefined,
    after: Folded | undefined,
    failure?: Error,
  ): Change {
    if (after) this.clean.set(stream, after);
    else this.clean.delete(stream);
    return { stream, prefix: streamPrefix(stream), key: streamKey(stream), before, after, failure };
  }

  private foldAgain(stream: string, entries: readonly Entry[], upTo: number): Change {
    const { before } = this.changed.get(stream)!;
    try {
      const old = before === null ? foldStream(this.options, stream, entries, this.seq) : before;
      return this.handOver(stream, old, foldStream(this.options, stream, entries, upTo));
    } catch (error) {
      return this.handOver(stream, undefined, undefined, error as Error);
    }
  }
}

/** The state after the entries that count; undefined when none does. */
export function foldStream(
  { registry, asAt }: Pick<FolderOptions, 'registry' | 'asAt'>,
  stream: string,
  entries: readonly Entry[],
  upTo: number,
): Folded | undefined {
  const kept = counted(upToSeq(entries, upTo), registry, { asAt });
  if (kept.length === 0) return undefined;
  const known = registry.kind(streamPrefix(stream))!;
  let state = known.it.initial(streamKey(stream));
  let end: End | undefined;
  for (const unit of byCommand(kept).values()) {
    for (const entry of unit) state = evolve(known, state, entry);
    end = endAfter(end, unit, registry);
  }
  return { state, end, weight: kept.length };
}

/** The stream as it was when the log held that many entries. */
const upToSeq = (entries: readonly Entry[], seq: number): readonly Entry[] =>
  (entries.at(-1)?.seq ?? 0) <= seq ? entries : entries.filter((it) => it.seq <= seq);

function evolve({ plugin, it }: Known<StreamKind>, state: unknown, entry: Entry): unknown {
  try {
    return it.evolve(state, entry);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new Error(`plugin “${plugin}” cannot fold entry ${entry.seq} (${entry.name}): ${why}`, {
      cause: error,
    });
  }
}
