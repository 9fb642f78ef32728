/**
 * Keeps read models up with the log, in the background. Those that stand at the same entry are fed
 * from one fold; one that is behind or has failed goes its own way until it stands with the others,
 * and gives way to them whenever something is recorded.
 */
import type { Registry } from '../host/registry.ts';
import type { EventLog } from '../log/log.ts';
import { fail, markOf, runBatch } from './batch.ts';
import { Breath } from './breath.ts';
import { Folder } from './folder.ts';
import type { ReadModel } from './model.ts';
import { Rests } from './rests.ts';

export interface RunnerOptions {
  readonly log: EventLog;
  readonly registry: Registry;
  readonly models: readonly ReadModel[];
  /** Only what had happened by the end of this day. */
  readonly asAt?: string;
  /** Only what was recorded before this UTC instant. */
  readonly before?: string;
  readonly sizes?: Sizes;
}

export interface Sizes {
  /** Entries in one batch of a model that is being served: its transaction must not grow for ever. */
  readonly batch?: number;
  /** Entries read from the log at once. */
  readonly page?: number;
  /** See folder.ts. */
  readonly heaviest?: number;
  readonly cached?: number;
}

const SERVED_BATCH = 50_000;
interface Waiting {
  readonly model: ReadModel;
  readonly seq: number;
  readonly settle: () => void;
}

export class Runner {
  private folders: Folder[] = [];
  private running: Promise<void> | undefined;
  private holds = 0;
  /** Something was appended while held. */
  private missed = false;
  private wanted = false;
  private closed = false;
  /** Nothing that is recorded later will count. */
  private ended = false;
  private waiting: Waiting[] = [];
  private betweenBatches: (() => void)[] = [];
  private readonly rests = new Rests();
  private readonly watchers = new Set<(model: ReadModel, seq: number) => void>();

  constructor(private readonly options: RunnerOptions) {}

  async open(): Promise<void> {
    const { log, models } = this.options;
    for (const model of models)
      await model.open(async (seq) => {
        const [entry] = await log.read(seq - 1, 1);
        return entry && markOf(entry);
      });
  }

  /** Something was appended: follow in the background. */
  kick(): void {
    this.rests.appended();
    this.missed = true;
    if (this.holds > 0) return;
    this.missed = false;
    this.start();
  }

  /**
   * While much is being recorded, nothing is followed unless somebody waits for it: every stream
   * is then written once, not at each of its entries. Returns the way to let go.
   */
  hold(): () => void {
    this.holds += 1;
    let held = true;
    return () => {
      if (!held) return;
      held = false;
      this.holds -= 1;
      if (this.holds === 0 && this.missed) this.kick();
    };
  }

  private start(): void {
    this.wanted = true;
    if (this.closed) {
      this.settle();
      return;
    }
    this.running ??= this.run().finally(() => {
      this.running = undefined;
      if (this.wanted) this.start();
    });
  }

  /**
   * Resolves when the model is being served and holds entry `seq`, or has failed. One that has failed
   * is tried again when something was recorded since: with nothing new it would only fail again.
   */
  async waitFor(model: ReadModel, seq: number): Promise<void> {
    if (this.rests.wouldFailAgain(model, seq)) return;
    if (!model.failed && this.stands(model, seq)) return;
    this.rests.tryAgain(model);
    await new Promise<void>((settle) => {
      this.waiting.push({ model, seq, settle });
      this.start();
    });
  }

  /**
   * Throws the rows away and waits until they are there again.
   * @throws the first failure among them
   */
  async rebuild(models: readonly ReadModel[], progress?: (seq: number, of: number) => void): Promise<void> {
    await new Promise<void>((settle) => {
      this.betweenBatches.push(() => {
        for (const model of models) {
          model.startAgain();
          this.rests.tryAgain(model);
        }
        settle();
      });
      this.start();
    });
    const { count } = await this.options.log.head();
    const watch = (moved: ReadModel, seq: number) =>
      moved === models[0] && progress?.(Math.min(seq, count), count);
    this.watchers.add(watch);
    await Promise.all(models.map((it) => this.waitFor(it, count)));
    this.watchers.delete(watch);
    const failed = models.find((it) => it.failed)?.failed;
    if (failed) throw failed;
  }

  private stands(model: ReadModel, seq: number): boolean {
    return !model.isBuilding && (model.seq >= seq || this.ended);
  }

  private settle(): void {
    const done = ({ model, seq }: Waiting) =>
      this.closed || model.failed !== undefined || this.stands(model, seq);
    const settled = this.waiting.filter(done);
    this.waiting = this.waiting.filter((it) => !done(it));
    for (const it of settled) it.settle();
  }

  private async run(): Promise<void> {
    while (this.wanted && !this.closed) {
      this.wanted = false;
      while (!this.closed && (await this.step()));
      this.settle();
    }
  }

  /** One batch; false when nothing is behind. */
  private async step(): Promise<boolean> {
    for (const work of this.betweenBatches.splice(0)) work();
    const group = await this.behind();
    if (group) {
      await this.advance(group, () => this.giveWay(group.models));
      return true;
    }
    return this.finish(this.options.models.filter((it) => it.isBuilding && this.rests.isAble(it)));
  }

  /** Those that are behind and stand furthest on, which are the quickest to be up again. */
  private async behind(busy: readonly ReadModel[] = []): Promise<Group | undefined> {
    if (this.ended) return undefined;
    const { count } = await this.options.log.head();
    const behind = this.options.models.filter(
      (it) => it.seq < count && this.rests.isAble(it) && !busy.includes(it),
    );
    if (behind.length === 0) return undefined;
    const from = Math.max(...behind.map((it) => it.seq));
    return { models: behind.filter((it) => it.seq === from), from, count };
  }

  /** In the middle of a long batch: brings the others up with what was recorded meanwhile. */
  private async giveWay(busy: readonly ReadModel[]): Promise<void> {
    if (!this.wanted) return;
    this.wanted = false;
    for (let group = await this.behind(busy); group; group = await this.behind(busy)) {
      if (group.from <= busy[0]!.seq) return;
      await this.advance(group);
    }
  }

  private async advance({ models, from, count }: Group, meanwhile?: () => Promise<void>): Promise<void> {
    const { log, before, sizes } = this.options;
    const served = models.some((it) => !it.isBuilding);
    // Those further on are met at their place, to go on together.
    const others = this.options.models.map((it) => it.seq).filter((seq) => seq > from);
    const to = Math.min(count, ...others, served ? from + (sizes?.batch ?? SERVED_BATCH) : count);
    const folder = this.folderAt(models, from);
    const progress = (seq: number) => {
      for (const watcher of this.watchers) for (const model of models) watcher(model, seq);
    };
    for (const model of models) model.failed = undefined;
    try {
      const stopped = () => this.closed;
      const done = await runBatch({
        log,
        folder,
        models,
        to,
        before,
        ...sizes,
        progress,
        stopped,
        meanwhile,
      });
      if (done.ended) this.ended = true;
    } catch (error) {
      for (const model of models) fail(model, error);
      this.folders = this.folders.filter((it) => it !== folder);
    }
    for (const model of models) this.rests.note(model, count);
    if (meanwhile) this.forgetFolders();
    this.settle();
  }

  private folderAt(models: readonly ReadModel[], seq: number): Folder {
    const needed = new Set(models.flatMap(prefixesOf));
    const known = this.folders.find((it) => it.seq === seq && it.covers(needed));
    if (known) return known;
    const { log, registry, asAt, sizes } = this.options;
    const made = new Folder({ log, registry, asAt, cached: sizes?.cached, prefixes: needed }, seq);
    this.folders.push(made);
    return made;
  }

  /** Keeps one folder for each place where a model stands, the one that folds most. */
  private forgetFolders(): void {
    const kept = new Map<number, Folder>();
    for (const folder of this.folders) {
      const other = kept.get(folder.seq);
      if (!other || other.prefixes.size < folder.prefixes.size) kept.set(folder.seq, folder);
    }
    this.folders = [...kept.values()].filter((it) => this.options.models.some(({ seq }) => seq === it.seq));
  }

  private async finish(building: readonly ReadModel[]): Promise<boolean> {
    const breath = new Breath();
    for (const model of building) {
      try {
        for (const _ of model.finishing()) if (breath.due) await breath.take(() => this.giveWay([model]));
      } catch (error) {
        fail(model, error);
        this.rests.note(model, (await this.options.log.head()).count);
      }
    }
    return building.length > 0;
  }

  async close(): Promise<void> {
    this.closed = true;
    await this.running;
    this.settle();
    for (const model of this.options.models) model.close();
  }
}

interface Group {
  readonly models: readonly ReadModel[];
  readonly from: number;
  /** Entries in the log. */
  readonly count: number;
}

const prefixesOf = (model: ReadModel): string[] => model.plan.projections.map((it) => it.of);
