/** Runs the plugins' timed work: one at a time, on a timer that is handed in, and never two times at once. */
import {
  type Asked,
  NoAnswer,
  type PluginJob,
  type Received,
  type Went,
  type Work,
} from '../contract/job.ts';
import type { Plugin } from '../contract/plugin.ts';
import type { Host } from './host.ts';
import { idOf, lookOn } from './look.ts';

export interface JobsOptions {
  readonly host: Host;
  readonly clock: () => Date;
  /** Calls back once after so many milliseconds; what it gives stops it. */
  readonly after: (ms: number, work: () => void) => () => void;
  /** What the user gave a plugin to keep, by plugin and name. */
  readonly secrets?: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly report: (error: Error) => void;
}

export interface JobStanding extends Went {
  readonly plugin: string;
  readonly job: string;
  readonly title: string;
  /** UTC instant at which it last ended. */
  readonly at: string;
}

const MINUTE = 60_000;
/** After the start, so that the page is served first. */
const FIRST = 20_000;
const LONGEST_WAIT = 24 * 3600;
const SLOWEST = 20_000;
const LARGEST = 10 * 1024 * 1024;

export class PluginJobs {
  private readonly stops = new Map<string, () => void>();
  private readonly ended = new Map<string, JobStanding>();
  private stopped = false;
  private running: Promise<unknown> = Promise.resolve();

  constructor(private readonly options: JobsOptions) {}

  start(): void {
    for (const plugin of this.options.host.registry.plugins)
      for (const [name, job] of Object.entries(plugin.jobs ?? {})) this.wait(plugin, name, job, FIRST);
  }

  standing(): JobStanding[] {
    return [...this.ended.values()];
  }

  /** Resolves when what runs has come to its end. */
  async stop(): Promise<void> {
    this.stopped = true;
    for (const stop of this.stops.values()) stop();
    this.stops.clear();
    await this.running.catch(() => {});
  }

  /** Runs it now, after what runs already. */
  run(plugin: Plugin, name: string, job: PluginJob): Promise<Went> {
    const turn = this.running.then(() => this.once(plugin, name, job));
    this.running = turn;
    return turn;
  }

  private wait(plugin: Plugin, name: string, job: PluginJob, ms: number): void {
    if (this.stopped) return;
    const stop = this.options.after(ms, () => {
      void this.run(plugin, name, job).then(({ again }) => {
        const seconds = Math.min(again ?? job.every * 60, LONGEST_WAIT);
        this.wait(plugin, name, job, Math.max(seconds * 1000, MINUTE));
      });
    });
    this.stops.set(`${plugin.id} ${name}`, stop);
  }

  private async once(plugin: Plugin, name: string, job: PluginJob): Promise<Went> {
    let went: Went;
    try {
      went = this.stopped ? { sentence: 'Stopped.' } : await job.run(await this.workFor(plugin, name));
    } catch (error) {
      this.options.report(error as Error);
      went = { sentence: `“${job.title}” failed: ${(error as Error).message}`, failed: true };
    }
    const at = this.options.clock().toISOString();
    this.ended.set(`${plugin.id} ${name}`, { ...went, plugin: plugin.id, job: name, title: job.title, at });
    return went;
  }

  private async workFor(plugin: Plugin, job: string): Promise<Work> {
    const { host, clock, secrets = {} } = this.options;
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
      ...(wants.has('requests') ? { get: getOver } : {}),
      ...(wants.has('secrets') ? { secret: (name: string) => secrets[plugin.id]?.[name] } : {}),
    };
  }
}

const local = (url: URL): boolean => ['127.0.0.1', 'localhost', '[::1]'].includes(url.hostname);

/** Over https only, but for this machine; no redirects, since a key may go along. */
async function getOver(address: string, { headers = {} }: Asked = {}): Promise<Received> {
  const url = URL.canParse(address) ? new URL(address) : undefined;
  if (!url || !(url.protocol === 'https:' || (url.protocol === 'http:' && local(url))))
    throw new NoAnswer('its address does not begin with https://.');
  try {
    const answer = await fetch(url, { headers, redirect: 'error', signal: AbortSignal.timeout(SLOWEST) });
    const text = await limited(answer);
    return { status: answer.status, header: (name) => answer.headers.get(name) ?? undefined, text };
  } catch (error) {
    if (error instanceof NoAnswer) throw error;
    throw new NoAnswer(
      (error as Error).name === 'TimeoutError' ? 'it took too long.' : 'there was no connection.',
    );
  }
}

async function limited(answer: Response): Promise<string> {
  const decoder = new TextDecoder();
  let text = '';
  let bytes = 0;
  for await (const part of (answer.body ?? []) as AsyncIterable<Uint8Array>) {
    bytes += part.length;
    if (bytes > LARGEST) throw new NoAnswer('it sent more than 10 MB at once.');
    text += decoder.decode(part, { stream: true });
  }
  return text + decoder.decode();
}
