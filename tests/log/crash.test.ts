/** The recording process is killed at any moment: nothing that was acknowledged is lost. */

import { once } from 'node:events';
import { rmSync } from 'node:fs';
import { text } from 'node:stream/consumers';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { seeded } from '../support/seeded.ts';
import { appendsOf, type Plan } from './plan.ts';
import { type Acknowledged, bundleRecorder, complaints, type Recorder, runAndKill, start } from './trial.ts';

let recorder: Recorder;
beforeAll(async () => {
  recorder = await bundleRecorder();
});
afterAll(() => recorder.end());

/** Milliseconds; seconds on a free machine, but others may use this one too. */
const LONG = 180_000;

const PLANS: readonly Plan[] = [
  { how: 'single', commands: 300, thread: false },
  { how: 'single', commands: 300, thread: true },
  { how: 'bulk', commands: 1200, thread: false },
  { how: 'bulk', commands: 1200, thread: true },
];

describe.each(PLANS)('killed while recording ($how, on a thread: $thread)', (plan) => {
  test(
    'in seven trials all that was acknowledged is there, and it carries on to the same end',
    async () => {
      const random = seeded(plan.commands + Number(plan.thread));
      let killed = 0;
      for (let trial = 0; trial < 7; trial++) {
        const dir = recorder.folder();
        const kill = { after: 1 + Math.floor(random() * plan.commands * 0.7), delay: random() * 12 };
        const run = await runAndKill(recorder, dir, plan, kill);
        expect(
          await complaints(dir, plan, run.acknowledged),
          `trial ${trial}, ${JSON.stringify(kill)}`,
        ).toEqual([]);
        if (!run.finished) killed += 1;
        rmSync(dir, { recursive: true, force: true });
      }
      expect(killed).toBeGreaterThan(3);
    },
    LONG,
  );
});

describe('after somebody else had the file locked', () => {
  test.each([false, true])(
    'an append fails loudly, and all that is acknowledged after it outlives a kill (on a thread: %s)',
    async (thread) => {
      const plan: Plan = { how: 'single', commands: 60, thread, busy: true };
      const dir = recorder.folder();
      const child = start(recorder, dir, plan);
      const [said] = await Promise.all([text(child.stdout), once(child, 'exit')]);
      expect(child.signalCode).toBe('SIGKILL');
      expect(said).toMatch(/^busy The log could not be written: .*locked/m);
      const acknowledged: Acknowledged[] = [...said.matchAll(/^acknowledged (\d+) (\S+)$/gm)].map(
        (match) => ({
          seq: Number(match[1]),
          command: match[2]!,
        }),
      );
      expect(acknowledged.length).toBe(appendsOf(plan).length + 1);
      expect(await complaints(dir, plan, acknowledged)).toEqual([]);
    },
  );
});
