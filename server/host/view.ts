/** The streams as a decision sees them: as they were when it is to happen, and as they are. */
import { type StreamRef, type Streams, streamName } from '../contract/streams.ts';
import type { Histories, History, Place } from './history.ts';

/** The streams that were asked for, and the error for reading another one. */
interface Limits {
  readonly asked: ReadonlySet<string>;
  readonly fault: (stream: string) => Error;
}

export class View implements Streams {
  private readonly states = new Map<string, unknown>();

  /** Without `limits` a stream that is not loaded yet looks empty: so `streams` can ask step by step. */
  constructor(
    readonly place: Place,
    private readonly load: Histories,
    private readonly limits?: Limits,
  ) {}

  of<State>(kind: StreamRef<State>, key: string): State {
    const stream = streamName(kind, key);
    if (this.states.has(stream)) return this.states.get(stream) as State;
    const history = this.history(stream);
    if (!history) return kind.initial(key);
    const state = history.stateBefore(this.place) as State;
    this.states.set(stream, state);
    return state;
  }

  latest<State>(kind: StreamRef<State>, key: string): State {
    const history = this.history(streamName(kind, key));
    return history ? (history.latest() as State) : kind.initial(key);
  }

  asked(): readonly string[] {
    return [...(this.limits?.asked ?? [])];
  }

  /** Those whose state at that moment the decision has looked at. */
  histories(): History[] {
    return [...this.states.keys()].map((stream) => this.load(stream)!);
  }

  private history(stream: string): History | undefined {
    if (this.limits && !this.limits.asked.has(stream)) throw this.limits.fault(stream);
    return this.load(stream);
  }
}
