/**
 * Decides ahead what was noted here and is not sent yet, on the streams that this device keeps, with the
 * very code that the studio decides with: a refusal comes at once, and what was noted shows folded in.
 */
import type { Entry } from '../../server/contract/entry.ts';
import { CONTRACT, definePlugin, type StoryEntry } from '../../server/contract/plugin.ts';
import { type Refusal, type StreamKind, streamName } from '../../server/contract/streams.ts';
import { Decider } from '../../server/host/decider.ts';
import { Desk } from '../../server/host/desk.ts';
import type { Order } from '../../server/host/host.ts';
import { inOrder, struck } from '../../server/host/order.ts';
import { nowIn, type ReadyOrder, readOrder } from '../../server/host/read-order.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import { standIn } from '../../server/host/texts.ts';
import { View } from '../../server/host/view.ts';
import type { EventLog } from '../../server/log/log.ts';
import { deciding } from '../../server/studio/deciding.ts';
import { KeptLog } from './kept-log.ts';

const studio = definePlugin({
  id: 'studio',
  contract: CONTRACT,
  about: 'What the studio decides with.',
  needs: [],
  ...deciding,
});

/** An order as it waits, as far as it is decided on. */
export type Noted = Pick<Order, 'id' | 'command' | 'input' | 'happenedAt' | 'clock'>;

/** What the studio would say. `unknown`: it rests on what this device does not keep, and only the studio can tell. */
export type Foreseen = 'taken' | 'unchanged' | 'unknown' | Refusal;

export interface AheadOf {
  readonly entries: readonly Entry[];
  readonly count: number;
  readonly streams: readonly string[];
  readonly zone: string;
  readonly now: () => number;
  readonly device: string;
}

export class Ahead {
  readonly registry = buildRegistry([studio]);
  private readonly log: KeptLog;
  private readonly desk: Desk;
  private readonly touched = new Set<string>();
  private readonly texts = new Map<string, string>();

  constructor(private readonly of: AheadOf) {
    this.log = new KeptLog(of.entries, of.count, new Set(of.streams));
    this.desk = new Desk(this.registry, this.log as unknown as EventLog, true);
  }

  /** Decides them one after the other, and keeps what they come to unless one of them is refused. */
  async note(orders: readonly Noted[]): Promise<readonly Foreseen[]> {
    const foreseen: Foreseen[] = orders.map(() => 'unknown');
    const waiting: { at: number; ready: ReadyOrder }[] = [];
    for (const [at, order] of orders.entries()) {
      const ready = this.ready(order);
      if ('refused' in ready) foreseen[at] = ready.code === 'no-such-command' ? 'unknown' : ready;
      else waiting.push({ at, ready });
    }
    if (foreseen.some(isRefused)) return foreseen;
    const decider = new Decider(this.registry, this.desk, new Date(this.of.now()).toISOString());
    const drafts = await decider.decideAll(
      waiting,
      (at, settled) => {
        foreseen[at] = 'unknown';
        if (settled instanceof Error) return;
        if (settled.outcome === 'unchanged') foreseen[at] = 'unchanged';
        if (settled.outcome === 'refused' && this.canTell(orders[at]!, settled.refusal))
          foreseen[at] = settled.refusal;
      },
      () => {},
    );
    if (foreseen.some(isRefused)) {
      this.desk.rollBack();
      return foreseen;
    }
    for (const { at, append } of drafts) {
      foreseen[at] = 'taken';
      for (const entry of append.entries) for (const stream of entry.streams) this.touched.add(stream);
    }
    for (const order of orders) this.rememberTexts(order);
    return foreseen;
  }

  private ready(noted: Noted): ReadyOrder | Refusal {
    const order: Order = { ...noted, who: '', device: this.of.device };
    const read = readOrder(order, this.registry, nowIn(this.of.zone, this.of.now()));
    if ('refused' in read) return read;
    const input = standIn(read.command, read.input, order.id);
    return { order, input, happenedAt: read.happenedAt, fingerprint: '', texts: [] };
  }

  /** A refusal that rests on a stream which is not here may be wrong. */
  private canTell(noted: Noted, refusal: Refusal): boolean {
    if (refusal.code === 'no-such-entry') return false;
    const ready = this.ready(noted);
    if ('refused' in ready) return true;
    const { it: command } = this.registry.command(noted.command)!;
    const place = { happenedAt: ready.happenedAt, rank: Number.POSITIVE_INFINITY };
    return command
      .streams(ready.input, new View(place, this.desk.history))
      .every((stream) => this.log.keeps(stream) || this.touched.has(stream));
  }

  private rememberTexts({ id, command, input }: Noted): void {
    for (const field of this.registry.command(command)?.it.texts ?? []) {
      const text = (input as Record<string, unknown>)[field];
      if (typeof text === 'string') this.texts.set(`${id}.${field}`, text);
    }
  }

  /** What was written here, by the id that an entry has for it. */
  textOf(id: string): string | undefined {
    return this.texts.get(id);
  }

  /** Streams that something was noted in. */
  get changed(): ReadonlySet<string> {
    return this.touched;
  }

  /** Whether the stream can be told from what is here. */
  knows(stream: string): boolean {
    return this.log.keeps(stream) || this.touched.has(stream);
  }

  async state<State>(kind: StreamKind<State>, key: string): Promise<State> {
    const stream = streamName(kind, key);
    await this.desk.load([stream]);
    return this.desk.history(stream)!.latest() as State;
  }

  async story(stream: string): Promise<StoryEntry[]> {
    await this.desk.load([stream]);
    const { entries } = this.desk.history(stream)!;
    const by = struck(entries);
    return inOrder(entries.map(this.registry.bring), this.registry).map((entry) => {
      const struckBy = by.get(entry.seq);
      return struckBy === undefined ? { entry } : { entry, struckBy };
    });
  }
}

const isRefused = (foreseen: Foreseen): foreseen is Refusal => typeof foreseen === 'object';
