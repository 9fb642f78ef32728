/** Damages the files of a small log in every way, and looks whether that is reported. */
import { copyFileSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type EventLog, LogDamaged, type Verdict } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { begun, command } from '../support/appends.ts';
import { freshFolder, steppingClock } from '../support/log.ts';

const FILES = ['log.db', 'log.db-wal', 'log.head'];

export const COMMANDS = Array.from({ length: 8 }, (_, n) =>
  command(n, [
    begun(`p${n}`, { streams: [`piece:p${n}`, 'firing:9'], claims: [`mark:p${n}`] }),
    begun(`q${n}`),
  ]),
);

/** A folder with the log's files as they stood, and everything that could be read out of it. */
export interface Kept {
  readonly dir: string;
  readonly all: string;
}

export class Samples {
  private readonly folders: string[] = [];

  folder(): string {
    const dir = freshFolder();
    this.folders.push(dir);
    return dir;
  }

  /** `open`: taken while the log was open, so with its write-ahead file; `closed`: all in one file. */
  async make(): Promise<{ open: Kept; closed: Kept }> {
    const dir = this.folder();
    const log = await openLog({ dir, clock: steppingClock() });
    for (const one of COMMANDS) await log.append(one);
    const all = await contents(log);
    const open = { dir: this.copy(dir), all };
    await log.close();
    return { open, closed: { dir: this.copy(dir), all } };
  }

  copy(from: string): string {
    const to = this.folder();
    for (const name of FILES)
      if (existsSync(join(from, name))) copyFileSync(join(from, name), join(to, name));
    return to;
  }

  end(): void {
    for (const dir of this.folders) rmSync(dir, { recursive: true, force: true });
  }
}

async function contents(log: EventLog): Promise<string> {
  const entries = await log.read(0, 1000);
  const streams = await log.streams([...new Set(entries.flatMap((entry) => entry.streams)), 'piece:none']);
  const receipts = await Promise.all(COMMANDS.map((it) => log.receipt(it.command)));
  return JSON.stringify([entries, [...streams], receipts, await log.head()]);
}

export type Found = { opened: false; error: unknown } | { opened: true; verdict: Verdict; same: boolean };

/** Opens and verifies what lies in `dir`, and removes it. */
export async function look(dir: string, all: string): Promise<Found> {
  let log: EventLog;
  try {
    log = await openLog({ dir, clock: steppingClock() });
  } catch (error) {
    return { opened: false, error };
  }
  const verdict = await log.verify();
  const sound = verdict.broken === undefined && verdict.missing === undefined;
  const same = sound && (await contents(log)) === all;
  await log.close();
  rmSync(dir, { recursive: true, force: true });
  return { opened: true, verdict, same };
}

type How = 'refused' | 'broken' | 'missing' | 'harmless' | 'passed over';

/** Harmless only if nothing at all has changed for anybody who reads. */
export function howReported(found: Found): How {
  if (!found.opened) return found.error instanceof LogDamaged ? 'refused' : 'passed over';
  if (found.verdict.broken) return 'broken';
  if (found.verdict.missing) return 'missing';
  return found.same ? 'harmless' : 'passed over';
}

export interface Damage {
  readonly what: string;
  readonly tried: number;
  readonly reported: Partial<Record<How, number>>;
  readonly passedOver: readonly string[];
}

/** Tries each damage on a copy of its own. */
async function tryEach(
  samples: Samples,
  what: string,
  kept: Kept,
  name: string,
  damages: Iterable<readonly [how: string, bytes: Buffer]>,
): Promise<Damage> {
  const reported: Partial<Record<How, number>> = {};
  const passedOver: string[] = [];
  let tried = 0;
  for (const [words, bytes] of damages) {
    const dir = samples.copy(kept.dir);
    writeFileSync(join(dir, name), bytes);
    const how = howReported(await look(dir, kept.all));
    if (how === 'passed over') passedOver.push(`${name}: ${words}`);
    reported[how] = (reported[how] ?? 0) + 1;
    tried += 1;
  }
  return { what, tried, reported, passedOver };
}

export function flipEach(
  samples: Samples,
  kept: Kept,
  name: string,
  places: Iterable<number>,
): Promise<Damage> {
  const bytes = readFileSync(join(kept.dir, name));
  function* flips(): Iterable<[string, Buffer]> {
    for (const place of places) {
      const flipped = Buffer.from(bytes);
      flipped[place] = flipped[place]! ^ (1 << (place % 8));
      yield [`byte ${place} flipped`, flipped];
    }
  }
  return tryEach(samples, `a byte of ${name} flipped`, kept, name, flips());
}

/** Cuts the write-ahead file at the start and in the middle of every frame. */
export function cutEach(samples: Samples, kept: Kept): Promise<Damage> {
  const name = 'log.db-wal';
  const wal = readFileSync(join(kept.dir, name));
  // SQLite file format, section 4.1: a header of 32 bytes, then frames of 24 bytes and a page each.
  const frame = 24 + wal.readUInt32BE(8);
  const frames = Math.floor((wal.length - 32) / frame);
  const middles = Array.from({ length: frames }, (_, n) => [
    32 + n * frame,
    32 + n * frame + frame / 2,
  ]).flat();
  const cuts = [0, 16, ...middles].map((length): [string, Buffer] => [
    `cut to ${length} bytes`,
    wal.subarray(0, length),
  ]);
  return tryEach(samples, 'write-ahead file cut', kept, name, cuts);
}

const every = (step: number, size: number) =>
  Array.from({ length: Math.ceil(size / step) }, (_, n) => n * step);

/** Strides without a factor of 8, so that every bit of a byte is flipped somewhere. */
export async function* damageEverywhere(): AsyncIterable<Damage> {
  const samples = new Samples();
  try {
    const { open, closed } = await samples.make();
    const size = (kept: Kept, name: string) => readFileSync(join(kept.dir, name)).length;
    yield await cutEach(samples, open);
    yield await flipEach(samples, closed, 'log.db', every(7, size(closed, 'log.db')));
    yield await flipEach(samples, open, 'log.db-wal', every(61, size(open, 'log.db-wal')));
    yield await flipEach(samples, closed, 'log.head', every(5, size(closed, 'log.head')));
  } finally {
    samples.end();
  }
}
