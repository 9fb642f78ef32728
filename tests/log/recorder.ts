/** Records a plan and says on standard output what was acknowledged, as soon as it is. */
import { writeSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import { type EventLog, LogUnavailable } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { appendsOf, type Plan } from './plan.ts';

const [dir, words] = process.argv.slice(2) as [string, string];
const plan = JSON.parse(words) as Plan;

function say(line: string): void {
  for (;;) {
    try {
      writeSync(1, `${line}\n`);
      return;
    } catch (error) {
      // The pipe is full until the other side has read.
      if ((error as { code?: string }).code !== 'EAGAIN') throw error;
    }
  }
}

async function one(log: EventLog, append: ReturnType<typeof appendsOf>[number]): Promise<void> {
  const receipt = await log.append(append);
  say(`acknowledged ${receipt.first} ${append.command}`);
}

/** As an import does: many at a time. */
async function inSlices(log: EventLog, appends: ReturnType<typeof appendsOf>): Promise<void> {
  for (let at = 0; at < appends.length; at += 500)
    await Promise.all(appends.slice(at, at + 500).map((append) => one(log, append)));
}

async function provokeBusy(log: EventLog): Promise<void> {
  const [first, second] = appendsOf(plan);
  await one(log, first!);
  const other = new Database(join(dir, 'log.db'));
  other.exec('BEGIN IMMEDIATE');
  const refused = await log.append(second!).catch((error: unknown) => error);
  other.exec('ROLLBACK');
  other.close();
  say(refused instanceof LogUnavailable ? `busy ${refused.message}` : 'the lock did not hold');
}

const log = await openLog({
  dir,
  clock: () => new Date(),
  thread: plan.thread,
  busyTimeout: plan.busy ? 20 : 5000,
});
if (plan.busy) await provokeBusy(log);
if (plan.how === 'single') for (const append of appendsOf(plan)) await one(log, append);
else await inSlices(log, appendsOf(plan));
if (plan.busy) process.kill(process.pid, 'SIGKILL');
await log.close();
