/**
 * Work that takes longer than a request should: started by one request, looked at
 * by others. Kept in memory only; what it did is in the log.
 */
import type { Progress } from '../host/host.ts';
import { problemOf } from './explain.ts';
import { type Problem, problem } from './problems.ts';

export interface Job {
  readonly job: string;
  readonly kind: string;
  readonly state: 'running' | 'done' | 'failed';
  /** How much is done, of how much; both 0 while that is not known. */
  readonly done: number;
  readonly of: number;
  readonly result?: unknown;
  readonly problem?: Problem;
}

/** How many finished ones are kept to be asked for. */
const KEPT = 50;

export class Jobs {
  private readonly jobs = new Map<string, Job>();
  private readonly ends = new Map<string, Promise<void>>();
  private readonly newId: () => string;
  private readonly report: (error: Error) => void;

  constructor(newId: () => string, report: (error: Error) => void) {
    this.newId = newId;
    this.report = report;
  }

  start(kind: string, work: (progress: Progress) => Promise<unknown>): Job {
    const begun: Job = { job: this.newId(), kind, state: 'running', done: 0, of: 0 };
    this.jobs.set(begun.job, begun);
    const ending = this.follow(begun, work).finally(() => this.ends.delete(begun.job));
    this.ends.set(begun.job, ending);
    return begun;
  }

  get(job: string): Job | undefined {
    return this.jobs.get(job);
  }

  /** Resolves when nothing is running any more. */
  async idle(): Promise<void> {
    await Promise.all(this.ends.values());
  }

  private async follow(begun: Job, work: (progress: Progress) => Promise<unknown>): Promise<void> {
    const now = () => this.jobs.get(begun.job) ?? begun;
    const progress: Progress = (done, of) => {
      this.jobs.set(begun.job, { ...now(), done, of });
    };
    try {
      const result = await work(progress);
      this.finish({ ...now(), state: 'done', result });
    } catch (error) {
      const { code, said } = problemOf(error as Error);
      if (code === 'went-wrong') this.report(error as Error);
      this.finish({ ...now(), state: 'failed', problem: problem(code, said) });
    }
  }

  private finish(job: Job): void {
    this.jobs.delete(job.job);
    this.jobs.set(job.job, job);
    const finished = [...this.jobs.values()].filter(({ state }) => state !== 'running');
    for (const old of finished.slice(0, -KEPT)) this.jobs.delete(old.job);
  }
}
