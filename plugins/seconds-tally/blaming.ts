/**
 * Has the draws made on a thread of its own, and keeps what they came to by what they were made from:
 * they are made again only when something has changed, and requests are answered meanwhile.
 */
import { createHash } from 'node:crypto';
import type { Worker } from 'node:worker_threads';
import { LRUCache } from 'lru-cache';
import { startThread } from '../../server/contract/thread.ts';
import type { Laid } from './blame.ts';
import type { Asked, Told } from './blame-thread.ts';
import type { Observation } from './noisy-or/model.ts';

/** Answers for so many periods and sets of owners are kept. */
const kept = new LRUCache<string, Promise<Laid>>({ max: 48 });

/** The same observations in the same order have the same answer. */
export function blame(observed: readonly Observation[]): Promise<Laid> {
  const key = createHash('sha256').update(JSON.stringify(observed)).digest('hex');
  const known = kept.get(key);
  if (known) return known;
  const made = draw(observed);
  kept.set(key, made);
  made.catch(() => kept.delete(key));
  return made;
}

interface Waiting {
  readonly resolve: (laid: Laid) => void;
  readonly reject: (error: Error) => void;
}

const waiting = new Map<number, Waiting>();
let thread: Worker | undefined;
let asked = 0;

function draw(observed: readonly Observation[]): Promise<Laid> {
  thread ??= started();
  const id = ++asked;
  const answer = new Promise<Laid>((resolve, reject) => waiting.set(id, { resolve, reject }));
  thread.ref();
  thread.postMessage({ id, observed } satisfies Asked);
  return answer;
}

function started(): Worker {
  const worker = startThread(import.meta.url, 'blame');
  const ended = (why: string) => {
    if (thread === worker) thread = undefined;
    for (const it of waiting.values()) it.reject(new Error(`the draws could not be made: ${why}`));
    waiting.clear();
  };
  worker.on('message', (told: Told) => {
    const its = waiting.get(told.id);
    waiting.delete(told.id);
    // An idle thread keeps no process from ending.
    if (waiting.size === 0) worker.unref();
    if ('laid' in told) its?.resolve(told.laid);
    else its?.reject(new Error(told.failed));
  });
  worker.on('error', ({ message }) => ended(message));
  worker.on('exit', () => ended('their thread has ended'));
  return worker;
}
