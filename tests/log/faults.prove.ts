/**
 * `npm run prove [COUNT]`: kills the recording process COUNT times (default 500), cuts a write-ahead
 * file at every frame and flips bytes all over the files of a small log; prints what was found. Exit 1 if anything
 * acknowledged was lost, or any damage passed over.
 */
import { rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { seeded } from '../support/seeded.ts';
import { type Damage, damageEverywhere } from './damage.ts';
import type { Plan } from './plan.ts';
import { bundleRecorder, complaints, type Recorder, runAndKill } from './trial.ts';

const count = Number(process.argv[2] ?? 500);
if (!Number.isSafeInteger(count) || count < 1) {
  console.error('COUNT is a whole number from 1');
  process.exit(2);
}

const PLANS: readonly Plan[] = [
  { how: 'single', commands: 300, thread: false },
  { how: 'single', commands: 300, thread: true },
  { how: 'bulk', commands: 4000, thread: false },
  { how: 'bulk', commands: 4000, thread: true },
];

interface Tally {
  trials: number;
  killed: number;
  acknowledged: number;
  complaints: string[];
}

async function trials(recorder: Recorder, plan: Plan, number: number): Promise<Tally> {
  const random = seeded(number + plan.commands + Number(plan.thread));
  const tally: Tally = { trials: 0, killed: 0, acknowledged: 0, complaints: [] };
  let next = 0;
  const lane = async () => {
    while (next < number) {
      const trial = next++;
      const dir = recorder.folder();
      const kill = { after: 1 + Math.floor(random() * plan.commands * 0.9), delay: random() * 15 };
      const run = await runAndKill(recorder, dir, plan, kill);
      const found = await complaints(dir, plan, run.acknowledged);
      tally.complaints.push(...found.map((it) => `trial ${trial} (${JSON.stringify(kill)}): ${it}`));
      tally.trials += 1;
      tally.killed += run.finished ? 0 : 1;
      tally.acknowledged += run.acknowledged.length;
      if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${plan.how}: ${tally.trials} of ${number}`);
      rmSync(dir, { recursive: true, force: true });
    }
  };
  await Promise.all(Array.from({ length: availableParallelism() }, lane));
  return tally;
}

async function killing(): Promise<string[]> {
  const recorder = await bundleRecorder();
  const found: string[] = [];
  console.log(
    '| recording | trials | killed before the end | acknowledged before the kill | lost or unsound |',
  );
  console.log('|---|--:|--:|--:|--:|');
  try {
    for (const [at, plan] of PLANS.entries()) {
      const share = Math.floor(count / PLANS.length) + (at < count % PLANS.length ? 1 : 0);
      const tally = await trials(recorder, plan, share);
      const where = `${plan.how}, ${plan.thread ? 'on a thread' : 'in process'}`;
      console.log(
        `| ${where} | ${tally.trials} | ${tally.killed} | ${tally.acknowledged} | ${tally.complaints.length} |`,
      );
      found.push(...tally.complaints.map((it) => `${where}: ${it}`));
    }
  } finally {
    recorder.end();
  }
  return found;
}

async function damaging(): Promise<string[]> {
  console.log(
    '\n| damage | tried | refused to open | broken entry named | missing entries named | changed nothing | passed over |',
  );
  console.log('|---|--:|--:|--:|--:|--:|--:|');
  const found: string[] = [];
  for await (const { what, tried, reported, passedOver } of damageEverywhere()) {
    const { refused = 0, broken = 0, missing = 0, harmless = 0 } = reported as Partial<Damage['reported']>;
    console.log(
      `| ${what} | ${tried} | ${refused} | ${broken} | ${missing} | ${harmless} | ${passedOver.length} |`,
    );
    found.push(...passedOver);
  }
  return found;
}

const found = [...(await killing()), ...(await damaging())];
for (const one of found) console.error(one);
process.exitCode = found.length === 0 ? 0 : 1;
