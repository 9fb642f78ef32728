/**
 * The queue in front of a home's writer. One group is written at a time; whatever is asked for
 * meanwhile waits and goes together into the next.
 */
import { answer, type Outcome } from './judge.ts';
import { type Append, type Clock, type Head, LogUnavailable, type Receipt } from './log.ts';
import { type Prepared, prepare } from './prepare.ts';

export type WriteGroup = (
  group: readonly Prepared[],
  now: string,
) => Promise<{ readonly outcomes: readonly Outcome[]; readonly head: Head }>;

interface Waiting {
  readonly append: Append;
  readonly prepared: Prepared;
  readonly settle: (result: Receipt | Error) => void;
}

/** Entries in one transaction at most, so that one import does not hold up everybody else. */
const LARGEST_GROUP = 5000;

export class GroupCommit {
  private waiting: Waiting[] = [];
  private running: Promise<void> | undefined;
  private closed = false;
  private readonly listeners = new Set<(head: Head) => void>();

  constructor(
    private readonly clock: Clock,
    private readonly write: WriteGroup,
  ) {}

  submit(append: Append): Promise<Receipt | Error> {
    if (this.closed) return Promise.resolve(new LogUnavailable('The log is closed.'));
    let prepared: Prepared;
    try {
      prepared = prepare(append);
    } catch (error) {
      return Promise.resolve(error as Error);
    }
    return new Promise((settle) => {
      this.waiting.push({ append, prepared, settle });
      this.running ??= this.run();
    });
  }

  onAppended(listener: (head: Head) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** Resolves when nothing waits any more; what comes later is refused. */
  async close(): Promise<void> {
    this.closed = true;
    await this.running;
  }

  private async run(): Promise<void> {
    // A turn of the event loop, so that everybody who was just answered can join the next group.
    await new Promise(setImmediate);
    while (this.waiting.length > 0) await this.writeNext(this.take());
    this.running = undefined;
  }

  private take(): Waiting[] {
    let entries = 0;
    let count = 0;
    while (count < this.waiting.length && entries < LARGEST_GROUP)
      entries += this.waiting[count++]!.prepared.entries.length;
    return this.waiting.splice(0, count);
  }

  private async writeNext(group: readonly Waiting[]): Promise<void> {
    try {
      const { outcomes, head } = await this.write(
        group.map((waiting) => waiting.prepared),
        this.clock().toISOString(),
      );
      group.forEach((waiting, index) => {
        waiting.settle(answer(outcomes[index]!, waiting.append));
      });
      const recorded = outcomes.some((it) => it.kind === 'receipt' && it.receipt.outcome === 'recorded');
      if (recorded) this.tell(head);
    } catch (error) {
      for (const waiting of group) waiting.settle(error as Error);
    }
    await new Promise(setImmediate);
  }

  private tell(head: Head): void {
    for (const listener of this.listeners) {
      try {
        listener(head);
      } catch (error) {
        queueMicrotask(() => {
          throw error;
        });
      }
    }
  }
}
