/** The two places where the embedded log can be written: in this process, or on a thread of its own. */
import { once } from 'node:events';
import type { Worker } from 'node:worker_threads';
import { startThread } from '../../contract/thread.ts';
import { LogDamaged, LogUnavailable } from '../log.ts';
import type { Prepared } from '../prepare.ts';
import type { WritingPlace } from './home.ts';
import { Writer, type WriterOptions, type Written } from './writer.ts';
import type { Asked, Told } from './writer-thread.ts';

export function inProcess(options: WriterOptions): WritingPlace & { readonly writer: Writer } {
  const writer = new Writer(options);
  return {
    writer,
    write: async (group, now) => writer.write(group, now),
    close: async () => writer.close(),
  };
}

export async function onThread(options: WriterOptions): Promise<WritingPlace> {
  const thread = new WriterThread(options);
  await thread.ready();
  return thread;
}

class WriterThread implements WritingPlace {
  private readonly worker: Worker;
  private dead: Error | undefined;

  constructor(options: WriterOptions) {
    this.worker = startThread(import.meta.url, 'writer', options);
    this.worker.on('error', (error) => {
      this.dead = error;
    });
    this.worker.on('exit', () => {
      this.dead ??= new Error('it has ended');
    });
  }

  async ready(): Promise<void> {
    const told = await this.answer();
    if ('failed' in told) {
      await this.worker.terminate();
      throw failure(told);
    }
  }

  async write(group: readonly Prepared[], now: string): Promise<Written> {
    if (this.dead !== undefined)
      throw new LogUnavailable(`The writing thread of the log is gone: ${this.dead.message}.`);
    this.worker.postMessage({ group, now } satisfies Asked);
    const told = await this.answer();
    if ('written' in told) return told.written;
    throw failure(told);
  }

  async close(): Promise<void> {
    if (this.dead !== undefined) return;
    const exit = once(this.worker, 'exit');
    this.worker.postMessage({ close: true } satisfies Asked);
    await exit;
  }

  /** The queue writes one group at a time, so the next message is the answer. */
  private answer(): Promise<Told> {
    return new Promise((resolve) => {
      const settle = (told: Told) => {
        this.worker.off('message', settle);
        this.worker.off('exit', gone);
        resolve(told);
      };
      const gone = () =>
        settle({
          failed: 'LogUnavailable',
          message: `The writing thread of the log has ended: ${this.dead?.message}.`,
        });
      this.worker.on('message', settle);
      this.worker.on('exit', gone);
    });
  }
}

function failure(told: Told): Error {
  if (!('failed' in told)) return new LogUnavailable('The writing thread of the log gave no answer.');
  return told.failed === 'LogDamaged' ? new LogDamaged(told.message) : new LogUnavailable(told.message);
}
