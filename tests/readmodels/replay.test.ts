/** Whatever is recorded, and however it is read: the rows are those of a plain replay. */
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import type { Past } from '../../server/host/host.ts';
import { buildRegistry } from '../../server/host/registry.ts';
import { ReadModel } from '../../server/readmodels/model.ts';
import { beforeOf } from '../../server/readmodels/past.ts';
import { planModel } from '../../server/readmodels/plan.ts';
import { Runner, type Sizes } from '../../server/readmodels/runner.ts';
import { bowlPlugin } from '../support/bowls.ts';
import { MadeLog } from '../support/entries.ts';
import { quickFolder } from '../support/folder.ts';
import { dumped, filtered, replayed } from '../support/replay.ts';

const ZONE = 'Europe/London';
const RUNS = Number(process.env.SEQUENCES ?? (process.env.CI ? 2_000 : 100));
const registry = buildRegistry([bowlPlugin]);
const plan = planModel(bowlPlugin);
const dir = quickFolder();
afterAll(() => rmSync(dir, { recursive: true, force: true }));

type Step =
  | {
      do: 'made' | 'glazed' | 'faulted';
      to?: undefined;
      bowl: number;
      word: number;
      at: string;
      wait: number;
    }
  | { do: 'split'; bowl: number; to: number; word: number; at: string; wait: number }
  | { do: 'struck'; which: number; at: string; wait: number };

/** Days around the clocks' change of 29 March 2026, with and without a time of day. */
const day = fc.integer({ min: 26, max: 31 }).map((it) => `2026-03-${it}`);
const moment = fc
  .tuple(day, fc.constantFrom('00:10', '01:30', '09:00', '15:45', '23:50'))
  .map(([date, time]) => `${date}T${time}:00${date >= '2026-03-30' ? '+01:00' : '+00:00'}`);
const at = fc.oneof(day, moment);
const bowl = fc.integer({ min: 0, max: 3 });
const word = fc.integer({ min: 0, max: 2 });
/** Hours until the next command is recorded. */
const wait = fc.integer({ min: 0, max: 30 });

const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({ do: fc.constantFrom('made', 'glazed', 'faulted'), bowl, word, at, wait }),
  },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('split'), bowl, to: bowl, word, at, wait }) },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('struck'), which: fc.nat(), at, wait }) },
);

const sizes: fc.Arbitrary<Sizes> = fc.record({
  batch: fc.integer({ min: 1, max: 12 }),
  page: fc.integer({ min: 1, max: 7 }),
  heaviest: fc.integer({ min: 1, max: 20 }),
  cached: fc.integer({ min: 1, max: 20 }),
});

const past: fc.Arbitrary<Past> = fc.oneof(
  fc.record({ asAt: day }),
  fc.record({ knownAt: day }),
  fc.record({ asAt: day, knownAt: day }),
);

const GLAZES = ['marram-green', 'cuttle-white', 'gannet-grey'];
const FAULTS = ['pinholes', 'runs', 'crawling'];
const of = (number: number) => `bowl:${number}`;

class Writing {
  readonly log = new MadeLog();
  private now = Date.parse('2026-03-26T20:00:00Z');

  record(step: Step): void {
    this.now += step.wait * 3_600_000;
    const recordedAt = new Date(this.now).toISOString();
    this.log.record(step.at, recordedAt, this.happenings(step));
  }

  private happenings(step: Step) {
    if (step.do === 'struck') {
      const { entries } = this.log;
      if (entries.length === 0) return [];
      const { seq, streams } = entries[step.which % entries.length]!;
      return [{ name: 'entry.struck', streams, data: { seq } }];
    }
    const name = `bowl.${step.do}`;
    const own = [of(step.bowl)];
    if (step.do === 'made') return [{ name, streams: own, data: { count: step.word + 1 } }];
    if (step.do === 'glazed') return [{ name, streams: own, data: { glaze: GLAZES[step.word] } }];
    if (step.do === 'faulted') return [{ name, streams: own, data: { fault: FAULTS[step.word] } }];
    const to = step.to ?? step.bowl;
    const data = { from: `${step.bowl}`, to: `${to}`, count: 1 };
    const split = { name, streams: [of(step.bowl), of(to)], data };
    // Part of the same command, like the glaze of what was split off.
    return [split, { name: 'bowl.glazed', streams: [of(to)], data: { glaze: GLAZES[step.word] } }];
  }
}

let files = 0;

async function build(log: MadeLog, sizes: Sizes, past: Past = {}) {
  const path = join(dir, `${files++}.db`);
  const model = new ReadModel(plan, path, false);
  const before = beforeOf(past, ZONE);
  const runner = new Runner({ log: log.asLog, registry, models: [model], asAt: past.asAt, before, sizes });
  await runner.open();
  const upTo = async () => {
    await runner.waitFor(model, log.entries.length);
    if (model.failed) throw model.failed;
  };
  await upTo();
  const end = async () => {
    await runner.close();
    rmSync(path, { force: true });
  };
  return { path, upTo, end, runner, model };
}

describe('a read model', () => {
  /*
   * A counterexample fails again, since the seed is fixed: trying once more forgives only a machine that
   * was out of breath (seen once in four runs of 2,000 beside other loads: a file that did not open).
   */
  it('holds the rows of a plain replay, kept up or rebuilt, now and in the past', {
    retry: 1,
    timeout: 900_000,
  }, async () => {
    mkdirSync(dir, { recursive: true });
    const sequence = fc.array(step, { minLength: 1, maxLength: 24 });
    await fc.assert(
      fc.asyncProperty(sequence, sizes, sizes, past, async (steps, keptSizes, rebuiltSizes, then) => {
        const writing = new Writing();
        const pasts: Past[] = [{}, then];
        const kept = await Promise.all(pasts.map((past) => build(writing.log, keptSizes, past)));
        for (const [i, it] of steps.entries()) {
          writing.record(it);
          if (i % 3 === 0) for (const model of kept) await model.upTo();
        }
        for (const [i, model] of kept.entries()) {
          await model.upTo();
          const past = pasts[i]!;
          const expected = replayed(filtered(writing.log.entries, past, ZONE), bowlPlugin, registry);
          expect(dumped(model.path, bowlPlugin)).toEqual(expected);
          const rebuilt = await build(writing.log, rebuiltSizes, past);
          expect(dumped(rebuilt.path, bowlPlugin)).toEqual(expected);
          await rebuilt.end();
          await model.end();
        }
      }),
      { numRuns: RUNS, seed: 20260501, endOnFailure: true },
    );
  });
});
