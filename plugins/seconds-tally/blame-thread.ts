/** The thread that draws what each cause is to blame for: observations in, rows out. */
import { parentPort } from 'node:worker_threads';
import { type Laid, laidOn } from './blame.ts';
import type { Observation } from './noisy-or/model.ts';

export interface Asked {
  readonly id: number;
  readonly observed: readonly Observation[];
}

export type Told = { readonly id: number } & ({ readonly laid: Laid } | { readonly failed: string });

const port = parentPort!;
port.on('message', ({ id, observed }: Asked) => {
  try {
    port.postMessage({ id, laid: laidOn(observed) } satisfies Told);
  } catch (error) {
    const failed = error instanceof Error ? error.message : String(error);
    port.postMessage({ id, failed } satisfies Told);
  }
});
