/** Runs the plugins' timed work: one at a time, on a timer that is handed in, and never two times at once. */
import type { PluginJob, Went, Work } from '../contract/job.ts';
import type { Plugin } from '../contract/plugin.ts';
import type { Host } from '../host/host.ts';
import { idOf, lookOn } from '../host/look.ts';
import { Book } from './book.ts';
import { type After, get } from './requests.ts';
import { type Secrets, SecretsHeld } from './secrets.ts';

export interface JobsOptions {
  readonly host: Host;
  readonly clock: () => Date;
  readonly after: After;
  readonly secrets?: Secrets;
  readonly book?: Book;
  readonly report: (error: Error) => void;
}

const MINUTE = 60_000;
/** After the start, so that the page is served first. */
const FIRST = 20_000;
const LONGEST_WAIT = 24 * 3600;

export class PluginJobs {
  readonly secrets: Secrets;
  readonly book: Book;
  private readonly stops = new Map<string, () => void>();
  private readonly going = new Set<string>();
  private stopped = false;
  private running: Promise<unknown> = Promise.resolve();

  constructor(private readonly options: JobsOptions) {
    this.secrets = options.secrets ?? new SecretsHeld();
    this.book = options.book ?? new Book();
  }

  start(): void {
    for (const [plugin, name, job] of this.all()) this.wait(plugin, name, job, FIRST);
  }

  all(): (readonly [plugin: Plugin, name: string, job: PluginJob])[] {
    return this.options.host.registry.plugins.flatMap((plugin) =>
      Object.entries(plugin.jobs ?? {}).map(([name, job]) => [plugin, name, job] as const),
    );
  }

  /** Minutes between two times. */
  every(plugin: Plugin, name: string, job: PluginJob): number {
    return this.book.of(plugin.id, name).every ?? job.every;
  }

  runs(plugin: Plugin, name: string): boolean {
    return this.going.has(`${plugin.id} ${name}`);
  }

  /** How often and whether at all; it is waited for anew from now. */
  set(
    plugin: Plugin,
    name: string,
    job: PluginJob,
    change: { readonly off?: boolean; readonly every?: number },
  ): void {
    this.book.note(plugin.id, name, change);
    this.wait(plugin, name, job, this.every(plugin, name, job) * MINUTE);
  }

  /** Resolves when what runs has come to its end. */
  async stop(): Promise<void> {
    this.stopped = true;
    for (const stop of this.stops.values()) stop();
    this.stops.clear();
    await this.running.catch(() => {});
  }

  /** Runs it now, after what runs already, whether or not it is done by itself. */
  run(plugin: Plugin, name: string, job: PluginJob): Promise<Went> {
    const turn = this.running.then(() => this.once(plugin, name, job));
    this.running = turn;
    return turn;
  }

  private wait(plugin: Plugin, name: string, job: PluginJob, ms: number): void {
    const key = `${plugin.id} ${name}`;
    this.stops.get(key)?.();
    this.stops.delete(key);
    if (this.stopped || this.book.of(plugin.id, name).off) return;
    const stop = this.options.after(ms, () => {
      this.stops.delete(key);
      void this.run(plugin, name, job).then(({ again }) => {
        if (this.stops.has(key)) return;
        const seconds = Math.min(again ?? this.every(plugin, name, job) * 60, LONGEST_WAIT);
        this.wait(plugin, name, job, Math.max(seconds * 1000, MINUTE));
      });
    });
    this.stops.set(key, stop);
  }

  private async once(plugin: Plugin, name: string, job: PluginJob): Promise<Went> {
    const key = `${plugin.id} ${name}`;
    if (this.stopped) return { sentence: 'Stopped.' };
    let went: Went;
    this.going.add(key);
    try {
      went = await job.run(await this.workFor(plugin, name));
    } catch (error) {
      this.options.report(error as Error);
      went = { sentence: `“${job.title}” failed: ${(error as Error).message}`, failed: true };
    } finally {
      this.going.delete(key);
    }
    this.note(plugin, name, went);
    return went;
  }

  private note({ id }: Plugin, name: string, { sentence, failed }: Went): void {
    const at = this.options.clock().toISOString();
    const before = this.book.of(id, name);
    this.book.note(id, name, {
      last: { at, sentence, ...(failed ? { failed } : {}) },
      failures: failed ? (before.failures ?? 0) + 1 : 0,
      since: failed && before.failures ? before.since : at,
    });
  }

  private async workFor(plugin: Plugin, job: string): Promise<Work> {
    const { host, clock, after } = this.options;
    const now = clock();
    const wants = new Set(plugin.wants ?? []);
    return {
      ...(await lookOn(host, now)),
      now,
      record: async ({ command, input, happenedAt, knownBy }) => {
        const id = idOf(['job', plugin.id, job, command, ...knownBy]);
        const when = happenedAt === undefined ? {} : { happenedAt };
        const outcome = await host.record({ id, command, input, ...when, who: 'maker', device: 'timer' });
        return outcome.outcome === 'refused' ? outcome.refusal.sentence : undefined;
      },
      report: async (name, params = {}) => (await host.report(plugin.id, name, params)).rows,
      ...(wants.has('requests') ? { get: (address, asked = {}) => get(address, asked, after) } : {}),
      ...(wants.has('secrets') ? { secret: (name: string) => this.secrets.get(plugin.id, name) } : {}),
    };
  }
}
