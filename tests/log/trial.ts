/** A process that records, to be killed at any moment; and what must hold of the log afterwards. */
import { type ChildProcessByStdio, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { canonical } from '../../server/log/canonical.ts';
import type { EventLog } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { steppingClock } from '../support/log.ts';
import { appendsOf, type Plan } from './plan.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** The recorder bundled as the server is, so that its writing thread is the bundled one too. */
export interface Recorder {
  readonly program: string;
  /** A fresh folder for a log, on the project's own disk. */
  folder(): string;
  end(): void;
}

export async function bundleRecorder(): Promise<Recorder> {
  mkdirSync(join(ROOT, 'dist'), { recursive: true });
  const outdir = mkdtempSync(join(ROOT, 'dist', 'recorder-'));
  await build({
    entryPoints: {
      recorder: join(ROOT, 'tests/log/recorder.ts'),
      'writer-thread': join(ROOT, 'server/log/embedded/writer-thread.ts'),
    },
    outdir,
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    logLevel: 'error',
  });
  return {
    program: join(outdir, 'recorder.js'),
    folder: () => mkdtempSync(join(outdir, 'log-')),
    end: () => rmSync(outdir, { recursive: true, force: true }),
  };
}

export interface Acknowledged {
  readonly seq: number;
  readonly command: string;
}

export interface Run {
  readonly acknowledged: readonly Acknowledged[];
  /** Whether the process came to the end of the plan by itself. */
  readonly finished: boolean;
}

export function start(
  recorder: Recorder,
  dir: string,
  plan: Plan,
): ChildProcessByStdio<null, Readable, null> {
  const args = [recorder.program, dir, JSON.stringify(plan)];
  return spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
}

/** Runs the plan and kills it `delay` milliseconds after it has acknowledged `after` commands. */
export async function runAndKill(
  recorder: Recorder,
  dir: string,
  plan: Plan,
  kill: { after: number; delay: number },
): Promise<Run> {
  const child = start(recorder, dir, plan);
  const acknowledged: Acknowledged[] = [];
  let timer: NodeJS.Timeout | undefined;
  const lines = createInterface({ input: child.stdout });
  lines.on('line', (line) => {
    const [word, seq, command] = line.split(' ');
    if (word === 'acknowledged') acknowledged.push({ seq: Number(seq), command: command! });
    if (acknowledged.length >= kill.after) timer ??= setTimeout(() => child.kill('SIGKILL'), kill.delay);
  });
  const closed = once(lines, 'close');
  const [code] = (await once(child, 'exit')) as [number | null];
  clearTimeout(timer);
  await closed;
  return { acknowledged, finished: code === 0 };
}

/** What is wrong with the log after a kill, in sentences; nothing if all is well. */
export async function complaints(
  dir: string,
  plan: Plan,
  acknowledged: readonly Acknowledged[],
): Promise<string[]> {
  const log = await openLog({ dir, clock: steppingClock('2026-06-01T09:00:00.000Z') });
  try {
    return [...(await unsound(log)), ...(await lost(log, acknowledged)), ...(await unfinished(log, plan))];
  } finally {
    await log.close();
  }
}

async function unsound(log: EventLog): Promise<string[]> {
  const { broken, missing } = await log.verify();
  const found: string[] = [];
  if (broken) found.push(`entry ${broken.seq}: ${broken.why}`);
  if (missing) found.push(`${missing.found} entries of ${missing.expected}`);
  return found;
}

async function lost(log: EventLog, acknowledged: readonly Acknowledged[]): Promise<string[]> {
  const entries = new Map((await log.read(0, 1_000_000)).map((entry) => [entry.seq, entry.command]));
  return acknowledged
    .filter(({ seq, command }) => entries.get(seq) !== command)
    .map(({ seq, command }) => `entry ${seq} of ${command} was acknowledged and is not there`);
}

/** Sends everything again, from the start: the log must come to the very end it would have come to undisturbed. */
async function unfinished(log: EventLog, plan: Plan): Promise<string[]> {
  const appends = appendsOf(plan);
  const results = await log.appendAll(appends);
  const failed = results.filter((result) => result instanceof Error).map((error) => `carrying on: ${error}`);
  const entries = await log.read(0, 1_000_000);
  const want = appends.flatMap((append) =>
    append.entries.map((entry) => canonical([append.command, entry.data], 'entry')),
  );
  const have = entries.map((entry) => canonical([entry.command, entry.data], 'entry'));
  if (want.join() !== have.join())
    failed.push(`it holds ${have.length} entries, not the ${want.length} of the plan in their order`);
  return [...failed, ...(await unsound(log))];
}
