/** One batch: entries from the log are folded once and written into every read model that stands there. */
import { createHash } from 'node:crypto';
import type { Entry } from '../contract/entry.ts';
import { canonical } from '../log/canonical.ts';
import type { EventLog } from '../log/log.ts';
import { Breath } from './breath.ts';
import type { Change, Folder } from './folder.ts';
import type { EventCount, ReadModel } from './model.ts';

/** Entries read from the log at once. */
const PAGE = 1_000;
/** Weight of the changed states at which a batch ends (see folder.ts). */
const HEAVIEST = 300_000;

export interface Batch {
  readonly log: EventLog;
  readonly folder: Folder;
  readonly models: readonly ReadModel[];
  /** Seq of its last entry at most. */
  readonly to: number;
  /** Recorded before this instant only. */
  readonly before?: string;
  readonly heaviest?: number;
  readonly page?: number;
  readonly progress?: (seq: number) => void;
  readonly stopped: () => boolean;
  /** Done whenever the work gives way to requests: those that are nearly up with the log go first. */
  readonly meanwhile?: () => Promise<void>;
}

export interface Done {
  /** Seq it came to. */
  readonly seq: number;
  /** The next entry was recorded too late: nothing further will ever count. */
  readonly ended: boolean;
}

/** What an entry was, to know the log by. */
export const markOf = (entry: Entry): string =>
  createHash('sha256').update(canonical(entry, 'entry')).digest('hex');

/** A model that fails is left where it was, with its failure, and the others go on. */
export async function runBatch(batch: Batch): Promise<Done> {
  const taken = await takeEntries(batch);
  if (taken.last === undefined) return { seq: batch.folder.seq, ended: taken.ended };
  await write(batch, taken.last, taken.events);
  return { seq: taken.last.seq, ended: taken.ended };
}

interface Taken {
  last: Entry | undefined;
  readonly events: Map<string, EventCount>;
  ended: boolean;
}

async function takeEntries(batch: Batch): Promise<Taken> {
  const { log, folder, to, before, heaviest = HEAVIEST, page: size = PAGE } = batch;
  const breath = new Breath();
  const taken: Taken = { last: undefined, events: new Map(), ended: false };
  let seq = folder.seq;
  while (seq < to && folder.weight < heaviest && !batch.stopped() && !taken.ended) {
    const page = await log.read(seq, Math.min(size, to - seq));
    if (page.length === 0) break;
    const late = before === undefined ? -1 : page.findIndex((it) => it.recordedAt >= before);
    taken.ended = late >= 0;
    const entries = taken.ended ? page.slice(0, late) : page;
    for (let at = 0; at < entries.length; ) {
      const first = entries[at]!;
      let next = at + 1;
      while (next < entries.length && entries[next]!.command === first.command) next++;
      folder.take(next - at === 1 ? [first] : entries.slice(at, next));
      at = next;
    }
    for (const entry of entries) count(taken.events, entry);
    taken.last = entries.at(-1) ?? taken.last;
    seq = taken.last?.seq ?? seq;
    batch.progress?.(seq);
    if (breath.due) await breath.take(batch.meanwhile);
  }
  return taken;
}

function count(events: Map<string, EventCount>, { name, seq: last }: Entry): void {
  events.set(name, { name, entries: (events.get(name)?.entries ?? 0) + 1, last });
}

async function write(
  { folder, models, meanwhile }: Batch,
  last: Entry,
  events: Taken['events'],
): Promise<void> {
  const breath = new Breath();
  const going = new Set<ReadModel>();
  const attempt = <T>(model: ReadModel, work: () => T): T | undefined => {
    try {
      return work();
    } catch (error) {
      going.delete(model);
      fail(model, error);
      return undefined;
    }
  };
  for (const model of models) {
    going.add(model);
    attempt(model, () => model.begin());
  }
  for await (const changes of folder.changes(last.seq))
    for (const change of changes) {
      for (const model of going) attempt(model, () => put(model, change));
      if (breath.due) await breath.take(meanwhile);
    }
  const mark = markOf(last);
  for (const model of going) {
    const steps = model.flushing();
    const step = () => {
      if (steps.next().done) model.commit(last.seq, mark, events);
      else return true;
    };
    while (attempt(model, step)) if (breath.due) await breath.take(meanwhile);
    if (breath.due) await breath.take(meanwhile);
  }
}

function put(model: ReadModel, { stream, prefix, key, before, after, failure }: Change): void {
  for (const projection of model.plan.projections) {
    if (projection.of !== prefix) continue;
    if (failure) throw failure;
    try {
      model.put(projection, stream, key, before, after);
    } catch (error) {
      const where = `projection ${projection.name} of ${stream}`;
      throw new Error(`${where}: ${error instanceof Error ? error.message : String(error)}`, {
        cause: error,
      });
    }
  }
}

export function fail(model: ReadModel, error: unknown): void {
  const why = error instanceof Error ? error.message : String(error);
  model.failed = new Error(`Plugin “${model.plan.plugin}” cannot keep its read model: ${why}`, {
    cause: error,
  });
  try {
    model.rollback();
  } catch {
    // The file itself cannot be used: a new one is made when it is tried again.
    model.seq = 0;
    model.close();
  }
}
