/** From observations to what is laid at each door. Pure, and heavy: see blaming.ts for where it is done. */
import { type BlameRow, blameRows } from './blame-rows.ts';
import { drawAll } from './noisy-or/draws.ts';
import { buildModel, type Observation } from './noisy-or/model.ts';

export interface Laid {
  readonly rows: readonly BlameRow[];
  /** The clay and the schedules that others are measured against. */
  readonly references: readonly string[];
  readonly pieces: number;
  readonly seconds: number;
}

export function laidOn(observed: readonly Observation[]): Laid {
  const model = buildModel(observed);
  const { references, pieces, seconds } = model;
  const rows = pieces === 0 ? [] : blameRows({ model, draws: drawAll(model) });
  return { rows, references, pieces, seconds };
}
