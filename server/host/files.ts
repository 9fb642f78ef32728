/** Files that commands and entries speak of: whether they are kept, and whether they are as they were. */
import type { Entry } from '../contract/entry.ts';
import type { Command } from '../contract/plugin.ts';
import { type Refusal, refuse } from '../contract/streams.ts';
import type { Files } from '../files/store.ts';
import type { EventLog } from '../log/log.ts';
import { struck } from './order.ts';
import type { Registry } from './registry.ts';
import { STRUCK } from './strike-events.ts';

/** Why a command cannot be decided yet; undefined when every file that it names is kept. */
export function lackingFile(
  command: Command,
  input: unknown,
  files: Pick<Files, 'standing' | 'touch'> | undefined,
): Refusal | undefined {
  for (const sha256 of command.files?.(input) ?? []) {
    const standing = files?.standing(sha256) ?? 'missing';
    if (standing === 'missing')
      return refuse(
        'file-not-here',
        'The file has not come in yet: send it first, then say what it is.',
        'sha256',
      );
    if (standing === 'erased')
      return refuse('file-erased', 'This file was erased with the person it was about.', 'sha256');
    files?.touch(sha256);
  }
  return undefined;
}

/** SHA-256 of every file that the entries speak of, with the first entry that does. */
export function filesOf(registry: Registry, entries: readonly Entry[]): Map<string, number> {
  const found = new Map<string, number>();
  for (const entry of entries) {
    const files = registry.event(entry.name)?.it.files;
    if (files === undefined) continue;
    for (const sha256 of files(registry.bring(entry).data))
      if (!found.has(sha256)) found.set(sha256, entry.seq);
  }
  return found;
}

/** Of these files, those that an entry outside the given streams speaks of as well and that was not struck out. */
export async function keptElsewhere(
  registry: Registry,
  log: EventLog,
  files: Iterable<string>,
  streams: ReadonlySet<string>,
): Promise<Set<string>> {
  const asked = new Set(files);
  const kept = new Map<number, readonly string[]>();
  const strikes: Entry[] = [];
  for (let after = 0; asked.size > 0; ) {
    const entries = await log.read(after, PAGE);
    if (entries.length === 0) break;
    for (const entry of entries) {
      if (entry.name === STRUCK) strikes.push(entry);
      if (entry.streams.some((stream) => streams.has(stream))) continue;
      const found = [...filesOf(registry, [entry]).keys()].filter((sha256) => asked.has(sha256));
      if (found.length > 0) kept.set(entry.seq, found);
    }
    after = entries.at(-1)!.seq;
  }
  const gone = struck(strikes);
  return new Set([...kept].flatMap(([seq, found]) => (gone.has(seq) ? [] : found)));
}

export interface FilesVerdict {
  readonly kept: number;
  readonly erased: number;
  /** Spoken of in the log, and not there. */
  readonly missing: readonly { readonly sha256: string; readonly seq: number }[];
  /** There, and not as its name says. */
  readonly changed: readonly { readonly sha256: string; readonly seq?: number }[];
}

const PAGE = 5_000;

export async function verifyFiles(registry: Registry, log: EventLog, files: Files): Promise<FilesVerdict> {
  const spokenOf = new Map<string, number>();
  for (let after = 0; ; ) {
    const entries = await log.read(after, PAGE);
    if (entries.length === 0) break;
    for (const [sha256, seq] of filesOf(registry, entries))
      if (!spokenOf.has(sha256)) spokenOf.set(sha256, seq);
    after = entries.at(-1)!.seq;
  }
  const there = await files.list();
  const kept = there.filter(({ standing }) => standing === 'kept');
  const changed: { sha256: string; seq?: number }[] = [];
  for (const { sha256 } of kept) {
    const seq = spokenOf.get(sha256);
    if (!(await files.isWhole(sha256))) changed.push({ sha256, ...(seq === undefined ? {} : { seq }) });
  }
  const missing = [...spokenOf]
    .filter(([sha256]) => files.standing(sha256) === 'missing')
    .map(([sha256, seq]) => ({ sha256, seq }));
  const erased = new Set(there.filter(({ standing }) => standing === 'erased').map(({ sha256 }) => sha256))
    .size;
  return { kept: kept.length, erased, missing, changed };
}
