/** The thread that writes the embedded log: one group in, its outcomes out. */
import { parentPort, workerData } from 'node:worker_threads';
import { LogDamaged } from '../log.ts';
import type { Prepared } from '../prepare.ts';
import { damageOnOpening } from './connection.ts';
import { Writer, type WriterOptions, type Written } from './writer.ts';

export interface Asked {
  readonly group?: readonly Prepared[];
  readonly now?: string;
  readonly close?: true;
}

/** Errors lose their class on the way, so they travel by name. */
export type Told =
  | { readonly written: Written }
  | { readonly failed: 'LogDamaged' | 'LogUnavailable'; readonly message: string }
  | { readonly ready: true }
  | { readonly closed: true };

function attempt(work: () => Told): Told {
  try {
    return work();
  } catch (error) {
    const damage = damageOnOpening(error);
    const failed = error instanceof LogDamaged || damage !== undefined ? 'LogDamaged' : 'LogUnavailable';
    return { failed, message: damage ?? (error instanceof Error ? error.message : String(error)) };
  }
}

const port = parentPort!;
let writer: Writer | undefined;
port.postMessage(
  attempt(() => {
    writer = new Writer(workerData as WriterOptions);
    return { ready: true };
  }),
);
port.on('message', ({ group, now, close }: Asked) => {
  if (close) {
    writer?.close();
    port.postMessage({ closed: true } satisfies Told);
    port.close();
    return;
  }
  port.postMessage(attempt(() => ({ written: writer!.write(group!, now!) })));
});
