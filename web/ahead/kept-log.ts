/** The entries that this device keeps, as the deciding code asks a log for them. */
import type { Entry } from '../../server/contract/entry.ts';
import type { EventLog, Head, Receipt, Stream } from '../../server/log/log.ts';

type Asked = Pick<EventLog, 'head' | 'streams' | 'read' | 'receipt' | 'holders'>;

export class KeptLog implements Asked {
  private readonly byStream = new Map<string, Entry[]>();
  private readonly bySeq = new Map<number, Entry>();
  private readonly byCommand = new Map<string, Receipt>();
  private readonly held = new Map<string, number>();

  /** @param entries in log order @param count entries in the whole log when they were fetched */
  constructor(
    entries: readonly Entry[],
    private readonly count: number,
    private readonly kept: ReadonlySet<string>,
  ) {
    for (const entry of entries) this.add(entry);
  }

  private add(entry: Entry): void {
    const { seq, command, streams, claims = [], releases = [] } = entry;
    this.bySeq.set(seq, entry);
    const first = this.byCommand.get(command)?.first ?? seq;
    this.byCommand.set(command, { outcome: 'repeated', first, last: seq });
    for (const stream of streams) {
      if (!this.kept.has(stream)) continue;
      const entries = this.byStream.get(stream);
      if (entries) entries.push(entry);
      else this.byStream.set(stream, [entry]);
    }
    for (const claim of releases) this.held.delete(claim);
    for (const claim of claims) this.held.set(claim, seq);
  }

  /** Whether the whole of the stream is here. */
  keeps(stream: string): boolean {
    return this.kept.has(stream);
  }

  async head(): Promise<Head> {
    return { count: this.count, hash: '' };
  }

  async streams(names: readonly string[]): Promise<Map<string, Stream>> {
    return new Map(
      names.map((name) => {
        const entries = this.byStream.get(name) ?? [];
        return [name, { entries, version: entries.length }];
      }),
    );
  }

  async read(after: number, limit: number): Promise<Entry[]> {
    const found: Entry[] = [];
    for (let seq = after + 1; seq <= after + limit; seq++) {
      const entry = this.bySeq.get(seq);
      if (entry) found.push(entry);
    }
    return found;
  }

  async receipt(command: string): Promise<Receipt | undefined> {
    return this.byCommand.get(command);
  }

  async holders(claims: readonly string[]): Promise<Map<string, number>> {
    return new Map(
      claims.flatMap((claim) => {
        const seq = this.held.get(claim);
        return seq === undefined ? [] : [[claim, seq] as const];
      }),
    );
  }
}
