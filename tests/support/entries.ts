/** A log of made entries, in memory and without any checks: for tests of what only reads a log. */
import type { Entry } from '../../server/contract/entry.ts';
import type { EventLog, Head, Stream } from '../../server/log/log.ts';

export interface Happening {
  readonly name: string;
  readonly streams: readonly string[];
  readonly data: unknown;
}

export class MadeLog implements Pick<EventLog, 'read' | 'streams' | 'head' | 'onAppended'> {
  readonly entries: Entry[] = [];
  private readonly byStream = new Map<string, Entry[]>();
  private readonly listeners = new Set<(head: Head) => void>();

  /** Records what one command says. `recordedAt` must not go back. */
  record(happenedAt: string, recordedAt: string, happenings: readonly Happening[]): void {
    const command = `command-${this.entries.length + 1}`;
    happenings.forEach((it, part) => {
      const seq = this.entries.length + 1;
      const who = 'ansa';
      const entry: Entry = {
        seq,
        command,
        part,
        version: 1,
        happenedAt,
        recordedAt,
        who,
        device: 'phone',
        ...it,
      };
      this.entries.push(entry);
      for (const stream of new Set(it.streams)) {
        const others = this.byStream.get(stream);
        if (others) others.push(entry);
        else this.byStream.set(stream, [entry]);
      }
    });
    const head = { count: this.entries.length, hash: '' };
    for (const listener of this.listeners) listener(head);
  }

  async read(after: number, limit: number): Promise<Entry[]> {
    return this.entries.slice(after, after + limit);
  }

  async streams(names: readonly string[]): Promise<Map<string, Stream>> {
    const found = (name: string) => this.byStream.get(name)?.slice() ?? [];
    return new Map(names.map((name) => [name, { entries: found(name), version: found(name).length }]));
  }

  async head(): Promise<Head> {
    return { count: this.entries.length, hash: '' };
  }

  onAppended(listener: (head: Head) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** As the whole interface, of which reading is all that is there. */
  get asLog(): EventLog {
    return this as unknown as EventLog;
  }
}
