/**
 * The desk: streams held in memory while commands are decided one after the other, those that
 * are decided but not yet recorded included.
 */
import { LRUCache } from 'lru-cache';
import type { Entry } from '../contract/entry.ts';
import type { EventLog } from '../log/log.ts';
import { History } from './history.ts';
import type { Registry } from './registry.ts';

/** Streams kept for the next commands. Some kilobytes each. */
const MOST_STREAMS = 5_000;

export class Desk {
  private readonly kept = new LRUCache<string, History>({ max: MOST_STREAMS });
  /** Streams of this sitting: not to be forgotten, since the log does not hold all of them yet. */
  private readonly open = new Map<string, History>();
  private readonly provisional: Entry[] = [];
  /** Claims taken (by seq) or given up (undefined) by what is decided but not yet recorded. */
  claims = new Map<string, number | undefined>();
  /** How it stood when this sitting began. */
  private mark: { readonly decided: number; readonly claims: ReadonlyMap<string, number | undefined> } = {
    decided: 0,
    claims: new Map(),
  };
  /** Entries in the log when the streams were read. */
  private count = -1;

  /** @param onlyForesees what is decided in one sitting still counts in the next, and is never recorded */
  constructor(
    private readonly registry: Registry,
    private readonly log: EventLog,
    private readonly onlyForesees = false,
  ) {}

  /** Begins a sitting. Somebody else may have written since: then nothing in memory counts. */
  async begin(): Promise<void> {
    if (!this.onlyForesees || this.count < 0) {
      const { count } = await this.log.head();
      if (count !== this.count || this.provisional.length > 0) this.clear();
      this.count = count;
      this.open.clear();
    }
    this.mark = { decided: this.provisional.length, claims: new Map(this.claims) };
  }

  /** Takes back what this sitting has decided. */
  rollBack(): void {
    const { decided, claims } = this.mark;
    const first = this.count + decided + 1;
    const touched = new Set(this.provisional.splice(decided).flatMap((entry) => entry.streams));
    for (const stream of touched) {
      const before = this.history(stream)!.entries.filter((entry) => entry.seq < first);
      this.open.set(stream, new History(this.registry, stream, before));
      this.kept.delete(stream);
    }
    this.claims = new Map(claims);
  }

  /** Everything decided in this sitting has been recorded, with the seqs that were reckoned. */
  recorded(): void {
    for (const [stream, history] of this.open) this.kept.set(stream, history);
    this.count += this.provisional.length;
    this.provisional.length = 0;
    this.claims.clear();
    this.open.clear();
  }

  clear(): void {
    this.kept.clear();
    this.open.clear();
    this.provisional.length = 0;
    this.claims.clear();
    this.count = -1;
  }

  /** The seq of the next entry. */
  get next(): number {
    return this.count + this.provisional.length + 1;
  }

  readonly history = (stream: string): History | undefined => {
    const open = this.open.get(stream);
    if (open) return open;
    const kept = this.kept.get(stream);
    if (kept) this.open.set(stream, kept);
    return kept;
  };

  async load(streams: readonly string[]): Promise<void> {
    const missing = [...new Set(streams)].filter((stream) => !this.history(stream));
    if (missing.length === 0) return;
    const found = await this.log.streams(missing);
    for (const stream of missing)
      this.open.set(stream, new History(this.registry, stream, found.get(stream)!.entries));
  }

  /** How many entries each stream holds, what is decided included. */
  versions(streams: readonly string[]): Record<string, number> {
    return Object.fromEntries(streams.map((stream) => [stream, this.history(stream)!.entries.length]));
  }

  /** Takes what was decided as if it were recorded. Its streams are loaded. */
  take(entries: readonly Entry[]): void {
    this.provisional.push(...entries);
    for (const stream of new Set(entries.flatMap((entry) => entry.streams)))
      this.history(stream)!.add(entries.filter((entry) => entry.streams.includes(stream)));
    for (const { claims = [], releases = [], seq } of entries) {
      for (const claim of releases) this.claims.set(claim, undefined);
      for (const claim of claims) this.claims.set(claim, seq);
    }
  }

  /** One entry by its place; undefined where there is none. */
  async entry(seq: number): Promise<Entry | undefined> {
    if (seq > this.count) return this.provisional[seq - this.count - 1];
    return (await this.log.read(seq - 1, 1))[0];
  }

  /** All entries of a command, in part order; none for an unknown one. */
  async entriesOf(command: string): Promise<readonly Entry[]> {
    const here = this.provisional.filter((entry) => entry.command === command);
    if (here.length > 0) return here;
    const receipt = await this.log.receipt(command);
    return receipt ? this.log.read(receipt.first - 1, receipt.last - receipt.first + 1) : [];
  }

  heldInLog(claims: readonly string[]): Promise<Map<string, number>> {
    return this.log.holders(claims);
  }

  /** The entries that hold the claims, by what is recorded and decided. */
  async holders(claims: readonly string[]): Promise<Map<string, number>> {
    const held = await this.log.holders(claims.filter((claim) => !this.claims.has(claim)));
    for (const claim of claims) {
      const seq = this.claims.get(claim);
      if (seq !== undefined) held.set(claim, seq);
    }
    return held;
  }
}
