/** The demo recorded in memory, with what became of each piece. */

import type { Entry } from '../../server/contract/entry.ts';
import type { Firing, Lot, Portion } from '../../server/contract/studio/state.ts';
import { demoDays } from '../../server/demo/demo.ts';
import { stateOf } from '../../server/host/fold.ts';
import type { Outcome } from '../../server/host/host.ts';
import { PLUGINS } from '../../server/manifest.ts';
import { openBench } from '../support/bench.ts';

export interface RecordedDemo {
  readonly outcomes: readonly Outcome[];
  readonly entries: readonly Entry[];
  readonly portions: readonly Portion[];
  readonly firings: readonly Firing[];
}

export async function recordDemo(today: string): Promise<RecordedDemo> {
  const bench = await openBench({ plugins: PLUGINS });
  const outcomes: Outcome[] = [];
  for (const { recordedAt, orders } of demoDays(today)) {
    bench.at(recordedAt);
    outcomes.push(...(await bench.recordAll(orders)));
  }
  const entries = await bench.log.read(0, 100_000);
  const states = (prefix: string) =>
    [...byStream(entries)]
      .filter(([stream]) => stream.startsWith(prefix))
      .map(([stream, its]) => stateOf(stream, its, bench.registry));
  const portions = (states('piece:') as Lot[]).flatMap((lot) => lot.portions);
  const firings = states('firing:') as Firing[];
  await bench.end();
  return { outcomes, entries, portions, firings };
}

function byStream(entries: readonly Entry[]): Map<string, Entry[]> {
  const streams = new Map<string, Entry[]>();
  for (const entry of entries)
    for (const stream of entry.streams) {
      const its = streams.get(stream);
      if (its) its.push(entry);
      else streams.set(stream, [entry]);
    }
  return streams;
}

export interface Rate {
  pieces: number;
  seconds: number;
  pinholes: number;
  runs: number;
}

/** Own and commissioned pieces by a key, as their first glaze firing left them. */
export function ratesBy(
  portions: readonly Portion[],
  key: (portion: Portion, showing: string) => string,
): Map<string, Rate> {
  const rates = new Map<string, Rate>();
  for (const portion of portions) {
    if (portion.owner.kind === 'student' || portion.owner.kind === 'hire') continue;
    const first = portion.passages.find((passage) => passage.role === 'glaze' && passage.state === 'drawn');
    const grading = first && portion.gradings.find((one) => one.firing === first.firing);
    const showing = first?.glazings[0]?.layers.at(-1)?.glaze;
    if (!first || !grading || !showing) continue;
    const name = key(portion, showing);
    const rate = rates.get(name) ?? { pieces: 0, seconds: 0, pinholes: 0, runs: 0 };
    rates.set(name, rate);
    rate.pieces += portion.count;
    if (grading.grade !== 'first') rate.seconds += portion.count;
    for (const fault of portion.faults)
      if (fault.firing === first.firing && (fault.kind === 'pinholes' || fault.kind === 'runs'))
        rate[fault.kind] += fault.count;
  }
  return rates;
}

export const share = (part: number, { pieces }: Rate): number => part / pieces;

export const bisqueOf = (portion: Portion): string =>
  portion.passages.find((passage) => passage.role === 'bisque')?.schedule ?? 'none';
