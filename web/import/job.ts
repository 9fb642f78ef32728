/** Sends a file to be read or recorded, and follows the work until it is done. */
import { ask, Failed, type Problem, queryOf } from '../api/client.ts';
import { nowRecorded } from '../api/fresh.ts';
import { deviceId } from '../api/ids.ts';

export interface Bad {
  readonly line: number;
  readonly column: string;
  readonly found: string;
  readonly expected: string;
}

/** What an import did, or would do. */
export interface Summary {
  readonly rows: number;
  readonly recorded: number;
  readonly struck: number;
  readonly repeated: number;
  readonly pieces?: number;
  readonly firings?: number;
  /** What the rows speak of, of a file that a plugin takes in. */
  readonly counts?: Readonly<Record<string, number>>;
  readonly added: Readonly<Record<string, readonly string[]>>;
  readonly bad: readonly Bad[];
  readonly preview?: readonly {
    readonly line: number;
    readonly sentences: readonly string[];
    readonly struck?: number;
  }[];
  readonly headings: readonly { readonly heading: string; readonly column?: string }[];
  readonly notes: readonly string[];
  /** Struck out here before, and left out. */
  readonly left?: readonly string[];
}

interface Job {
  readonly job: string;
  readonly state: 'running' | 'done' | 'failed';
  readonly done: number;
  readonly of: number;
  readonly result?: Summary;
  readonly problem?: { readonly code: string; readonly detail: string };
}

export type Mapping = Readonly<Record<string, string>>;

export interface Asked {
  readonly kind: string;
  readonly file: File;
  readonly dryRun: boolean;
  /** Our column by the file's heading; an empty one leaves it out. */
  readonly mapping?: Mapping;
  /** Take in again what was struck out here. */
  readonly again?: boolean;
}

const LOOK_AGAIN_MS = 300;
const soon = () => new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS));

const failed = (problem: Job['problem']): Failed =>
  new Failed({
    code: problem?.code ?? 'work-failed',
    sentence: problem?.detail ?? '',
    status: 422,
  } satisfies Problem);

/** @throws Failed when the file cannot be read or the work fails */
export async function runImport(
  asked: Asked,
  progress: (done: number, of: number) => void,
): Promise<Summary> {
  const query = queryOf({
    kind: asked.kind,
    'dry-run': asked.dryRun ? 'true' : undefined,
    again: asked.again ? 'true' : undefined,
    mapping: asked.mapping && JSON.stringify(asked.mapping),
  });
  let job = await ask<Job>(`/api/imports?${query}`, {
    method: 'POST',
    headers: { 'content-type': 'text/csv', 'x-wareboard-device': deviceId() },
    body: asked.file,
  });
  while (job.state === 'running') {
    progress(job.done, job.of);
    await soon();
    job = await ask<Job>(`/api/imports/${encodeURIComponent(job.job)}`);
  }
  if (job.state === 'failed' || !job.result) throw failed(job.problem);
  if (!asked.dryRun) nowRecorded();
  return job.result;
}
