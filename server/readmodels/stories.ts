/** Streams as a report or a page sees them: their entries in the order they happened, and their state. */
import type { Entry } from '../contract/entry.ts';
import type { StoryEntry } from '../contract/plugin.ts';
import { streamKey, streamPrefix } from '../contract/streams.ts';
import { dayOf, inOrder, struck } from '../host/order.ts';
import type { Registry } from '../host/registry.ts';
import type { EventLog } from '../log/log.ts';
import { foldStream } from './folder.ts';

/** The part of the log that a question is about. */
export interface Filter {
  /** Had happened by the end of this day. */
  readonly asAt?: string;
  /** Recorded before this UTC instant. */
  readonly before?: string;
}

export class Stories {
  constructor(
    private readonly log: EventLog,
    private readonly registry: Registry,
    private readonly filter: Filter = {},
  ) {}

  private async recorded(stream: string, upTo: number): Promise<readonly Entry[]> {
    const { before } = this.filter;
    const found = (await this.log.streams([stream])).get(stream)?.entries ?? [];
    return found.filter((it) => it.seq <= upTo && (before === undefined || it.recordedAt < before));
  }

  /** Struck entries and strikes stand among the others. */
  async story(stream: string, upTo: number): Promise<StoryEntry[]> {
    const recorded = await this.recorded(stream, upTo);
    const by = struck(recorded);
    const { asAt } = this.filter;
    const shown = asAt === undefined ? recorded : recorded.filter((it) => dayOf(it.happenedAt) <= asAt);
    return inOrder(shown.map(this.registry.bring), this.registry).map((entry) => {
      const struckBy = by.get(entry.seq);
      return struckBy === undefined ? { entry } : { entry, struckBy };
    });
  }

  /** The state before any entry when nothing of the stream counts. */
  async state(stream: string, upTo: number): Promise<unknown> {
    const { registry, filter } = this;
    const folded = foldStream({ registry, ...filter }, stream, await this.recorded(stream, upTo), upTo);
    if (folded) return folded.state;
    const kind = registry.kind(streamPrefix(stream));
    if (!kind) throw new Error(`no plugin declares streams named ${streamPrefix(stream)}:…`);
    return kind.it.initial(streamKey(stream));
  }
}
