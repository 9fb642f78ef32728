/** The frozen logs of earlier versions, as they were recorded. */
import { readdirSync, readFileSync } from 'node:fs';
import type { Entry } from '../../server/contract/entry.ts';

const FOLDER = new URL('../history/', import.meta.url);

export interface FrozenLog {
  readonly file: string;
  readonly entries: readonly Entry[];
}

export function frozenLogs(): FrozenLog[] {
  return readdirSync(FOLDER)
    .filter((file) => /^log-\d+\.jsonl$/.test(file))
    .sort()
    .map((file) => ({
      file,
      entries: readFileSync(new URL(file, FOLDER), 'utf8')
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line) as Entry),
    }));
}
