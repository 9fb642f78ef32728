/**
 * Read models as they were: made when they are asked about, kept for the next question, a bounded
 * number of them, and removed at the next start. One as at a day follows the log like any other,
 * since entries come late; one as known at a day that is over is complete once and for all.
 */
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { endOf } from '../host/days.ts';
import type { Past } from '../host/host.ts';
import type { Registry } from '../host/registry.ts';
import type { EventLog } from '../log/log.ts';
import { ReadModel } from './model.ts';
import type { ModelPlan } from './plan.ts';
import { Runner, type Sizes } from './runner.ts';

export interface PastModel {
  readonly model: ReadModel;
  readonly runner: Runner;
}

interface Kept extends PastModel {
  readonly opened: Promise<void>;
  users: number;
}

/** Files kept; about as large as the present's, each. */
const KEPT = 12;

export interface PastOptions {
  readonly log: EventLog;
  readonly registry: Registry;
  /** `read/past`, emptied here. */
  readonly dir: string;
  readonly sizes?: Sizes;
  readonly kept?: number;
}

/** The instant from which on nothing had been recorded by the end of that day. */
export const beforeOf = ({ knownAt }: Past, zone: string): string | undefined =>
  knownAt === undefined ? undefined : new Date(endOf(knownAt, zone)).toISOString();

export class PastModels {
  /** Least recently asked first. */
  private readonly models = new Map<string, Kept>();

  constructor(private readonly options: PastOptions) {
    rmSync(options.dir, { recursive: true, force: true });
    mkdirSync(options.dir, { recursive: true });
  }

  /** Runs `work` with the plugin's read model of that past, which may not hold all of it yet. */
  async using<T>(plan: ModelPlan, past: Past, zone: string, work: (it: PastModel) => Promise<T>): Promise<T> {
    const before = beforeOf(past, zone);
    const name = [plan.plugin, past.asAt ?? 'now', past.knownAt ?? 'now'].join('-');
    // The same day ends at another instant once the studio has another zone.
    const key = `${name} ${before}`;
    const kept = this.models.get(key) ?? this.make(plan, name, past, before);
    this.models.delete(key);
    this.models.set(key, kept);
    kept.users++;
    try {
      await kept.opened;
      return await work(kept);
    } finally {
      kept.users--;
      await this.letGo();
    }
  }

  private make(plan: ModelPlan, name: string, past: Past, before: string | undefined): Kept {
    const { log, registry, dir, sizes } = this.options;
    const model = new ReadModel(plan, join(dir, `${name}.db`), false);
    const runner = new Runner({ log, registry, models: [model], asAt: past.asAt, before, sizes });
    return { model, runner, opened: runner.open(), users: 0 };
  }

  private async letGo(): Promise<void> {
    let over = this.models.size - (this.options.kept ?? KEPT);
    for (const [key, it] of this.models) {
      if (over <= 0) return;
      if (it.users > 0) continue;
      this.models.delete(key);
      over--;
      await it.runner.close();
      it.model.remove();
    }
  }

  async close(): Promise<void> {
    for (const it of this.models.values()) await it.runner.close();
    this.models.clear();
    rmSync(this.options.dir, { recursive: true, force: true });
  }
}
