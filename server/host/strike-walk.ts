/** Which entries could not stand once others are struck out or brought back, across all streams they are in. */
import type { Entry } from '../contract/entry.ts';
import { type Refusal, refuse, streamKey } from '../contract/streams.ts';
import { named } from './decide.ts';
import type { Desk } from './desk.ts';
import { counted } from './fold.ts';
import type { Resting } from './host.ts';
import type { Registry } from './registry.ts';
import { STRUCK, type Struck } from './strike-events.ts';

/** One that cannot stand any more. */
export interface Fallen extends Resting {
  readonly entry: Entry;
}

export class StrikeWalk {
  private readonly fallen = new Map<number, Fallen>();
  private readonly walked = new Set<string>();
  /** Entries that come back because their strike is struck. */
  private readonly back: ReadonlySet<number>;

  constructor(
    private readonly registry: Registry,
    private readonly desk: Desk,
    private readonly targets: readonly Entry[],
  ) {
    const strikes = targets.filter((entry) => entry.name === STRUCK);
    this.back = new Set(strikes.map((entry) => (entry.data as Struck).seq));
  }

  /** Every stream that was looked at. */
  read(): readonly string[] {
    return [...this.walked];
  }

  /** Until nothing more falls; refused where an entry that comes back cannot stand itself. */
  async findResting(): Promise<Fallen[] | Refusal> {
    const waiting = this.targets.flatMap((entry) => entry.streams);
    while (waiting.length > 0) {
      const streams = [...new Set(waiting.splice(0))];
      await this.desk.load(streams);
      for (const stream of streams) {
        this.walked.add(stream);
        for (const { entry, why } of this.walk(stream)) {
          if (this.back.has(entry.seq))
            return refuse('not-possible-then', `${capital(named(entry))}, cannot be brought back: ${why}`);
          const { seq, name, happenedAt } = entry;
          this.fallen.set(seq, { seq, name, happenedAt, why, entry });
          waiting.push(...entry.streams);
        }
      }
    }
    return [...this.fallen.values()].sort((a, b) => a.seq - b.seq);
  }

  /** The entries of a stream that cannot stand now and could before. What falls is passed over, so that what rests on it falls too. */
  private walk(stream: string): { entry: Entry; why: string }[] {
    const history = this.desk.history(stream)!;
    const { kind } = history;
    if (!kind) return [];
    const could = history.standing();
    const raw = new Map(history.entries.map((entry) => [entry.seq, entry]));
    const found: { entry: Entry; why: string }[] = [];
    let state = kind.initial(streamKey(stream));
    for (const entry of this.left(history.entries)) {
      const why = kind.legal(state, entry);
      if (why !== undefined && (could.has(entry.seq) || this.back.has(entry.seq)))
        found.push({ entry: raw.get(entry.seq)!, why });
      else state = kind.evolve(state, entry);
    }
    return found;
  }

  /** What counts in a stream once everything that is to go has gone. */
  private left(entries: readonly Entry[]): Entry[] {
    const gone = [...this.targets.map((entry) => entry.seq), ...this.fallen.keys()];
    const strikes = gone.map((seq, index) => strikeOf(seq, index));
    return counted([...entries, ...strikes], this.registry);
  }
}

const strikeOf = (seq: number, index: number): Entry => ({
  seq: Number.MAX_SAFE_INTEGER - index,
  command: 'strike',
  part: index,
  name: STRUCK,
  version: 1,
  happenedAt: '9999-12-31',
  recordedAt: '',
  who: '',
  device: '',
  streams: [],
  data: { seq } satisfies Struck,
});

const capital = (text: string): string => text[0]!.toUpperCase() + text.slice(1);
