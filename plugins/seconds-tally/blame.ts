/**
 * Draws the answer for what is on the record. The draws are kept by what they were made from, so
 * they are made again only when something has changed; while they are made, requests are answered.
 */
import { createHash } from 'node:crypto';
import { LRUCache } from 'lru-cache';
import { type Draws, drawing } from './noisy-or/draws.ts';
import { outstandingFirings } from './noisy-or/firings.ts';
import { buildModel, type Model, type Observation } from './noisy-or/model.ts';

export interface Blame {
  readonly model: Model;
  readonly draws: Draws;
}

/** Milliseconds of work in one go. */
const SPELL = 12;

/** Records of this many periods and sets of owners are kept. */
const kept = new LRUCache<string, Promise<Blame>>({ max: 24 });

async function draw(observed: readonly Observation[]): Promise<Blame> {
  const model = buildModel(outstandingFirings(observed));
  const steps = drawing(model);
  let since = performance.now();
  for (;;) {
    const { done, value } = steps.next();
    if (done) return { model, draws: value };
    if (performance.now() - since < SPELL) continue;
    await new Promise(setImmediate);
    since = performance.now();
  }
}

/** The same observations in the same order are answered from the same draws. */
export function blame(observed: readonly Observation[]): Promise<Blame> {
  const key = createHash('sha256').update(JSON.stringify(observed)).digest('hex');
  const known = kept.get(key);
  if (known) return known;
  const made = draw(observed);
  kept.set(key, made);
  made.catch(() => kept.delete(key));
  return made;
}
