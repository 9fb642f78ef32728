/** Heavy reckoning on a thread of its own, so that requests are answered meanwhile. */
import { Worker } from 'node:worker_threads';

/**
 * Starts `NAME-thread.ts`, which stands beside the file that asks; `here` is that file's
 * `import.meta.url`. The bundle carries every file of such a name (server/build.mjs), beside itself.
 * From source the thread must register tsx itself: Node 20 does not pass the loader on to threads.
 */
export function startThread(here: string, name: string, workerData?: unknown): Worker {
  if (!here.endsWith('.ts')) return new Worker(new URL(`./${name}-thread.js`, here), { workerData });
  const source = JSON.stringify(new URL(`./${name}-thread.ts`, here).href);
  const start = `import('tsx/esm/api').then(({ register }) => { register(); return import(${source}); })`;
  return new Worker(start, { eval: true, workerData });
}
