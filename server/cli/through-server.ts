/** Works through the server that has the data folder open. */
import { createReadStream, statSync } from 'node:fs';
import { cp, rm } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { setTimeout as pause } from 'node:timers/promises';
import { checkBackup } from '../backup/check.ts';
import type { Entry } from '../contract/entry.ts';
import type { Answer } from '../contract/figures.ts';
import type { Outcome, Progress } from '../host/host.ts';
import { newId } from '../host/ids.ts';
import type { Job } from '../http/jobs.ts';
import type { Problem } from '../http/problems.ts';
import { type Desk, Failed } from './verb.ts';
import type { Verified, Workplace } from './workplace.ts';

/** Milliseconds between two looks at long work. */
const LOOK = 150;

export function throughServer(address: string, { clock }: Pick<Desk, 'clock'>, look = LOOK): Workplace {
  const ask = <T>(path: string, init?: RequestInit) => request<T>(address, path, init);
  const post = <T>(path: string, body: object = {}) =>
    ask<T>(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });

  async function finished<Result>(begun: Job, progress: Progress): Promise<Result> {
    let job = begun;
    while (job.state === 'running') {
      progress(job.done, job.of);
      await pause(look);
      job = await ask<Job>(`/api/jobs/${job.job}`);
    }
    if (job.state === 'failed') throw new Failed(job.problem?.detail ?? 'The work could not be finished.');
    return job.result as Result;
  }

  return {
    async import({ kind, file, dryRun, mapping }, progress) {
      const query = new URLSearchParams({ kind, 'dry-run': String(dryRun) });
      if (mapping !== undefined) query.set('mapping', JSON.stringify(mapping));
      const headers = { 'content-type': 'text/csv', 'content-length': String(statSync(file).size) };
      const body = Readable.toWeb(createReadStream(file)) as unknown as BodyInit;
      const init = { method: 'POST', headers, body, duplex: 'half' } as RequestInit;
      return finished(await ask<Job>(`/api/imports?${query}`, init), progress);
    },
    report: (plugin, report, params) =>
      ask<Answer>(
        `/api/reports/${encodeURIComponent(plugin)}/${encodeURIComponent(report)}?${new URLSearchParams(params)}`,
        {
          headers: { accept: 'application/json' },
        },
      ),
    paper: async (plugin, paper, params) => {
      const path = `/api/papers/${encodeURIComponent(plugin)}/${encodeURIComponent(paper)}?${new URLSearchParams(params)}`;
      const answer = await reach(address, path, { headers: { accept: 'application/pdf' } });
      if (!answer.ok) throw refusal(address, answer.status, readJson(await answer.text()));
      return new Uint8Array(await answer.arrayBuffer());
    },
    verify: async (progress) => finished<Verified>(await post<Job>('/api/admin/verify'), progress),
    rebuild: async (plugin, progress) =>
      finished<void>(await post<Job>('/api/admin/rebuild', { plugin }), progress),
    async backup(into, progress) {
      const made = await finished<{ folder: string; entries: number }>(
        await post<Job>('/api/admin/backup'),
        progress,
      );
      await cp(made.folder, into, { recursive: true, errorOnExist: true, force: false });
      await checkBackup(into);
      await rm(made.folder, { recursive: true });
      return made.entries;
    },
    forget: (person) => post<Outcome>('/api/admin/forget', { id: newId(clock()), person }),
    passphrase: async (said) => {
      await ask('/api/network/passphrase', {
        method: 'PUT',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ passphrase: said }),
      });
    },
    pictures: async () => {
      const { files } = await ask<{ files: { sha256: string; standing: string }[] }>('/api/files');
      return files.filter(({ standing }) => standing === 'kept').map(({ sha256 }) => sha256);
    },
    async picture(sha256) {
      const answer = await fetch(`${address}/api/files/${sha256}`).catch((error: Error) => {
        throw new Failed(`The picture ${sha256} did not come in (${reason(error)}).`);
      });
      if (!answer.ok) throw new Failed(`The picture ${sha256} did not come in: status ${answer.status}.`);
      return new Uint8Array(await answer.arrayBuffer());
    },
    entries: async (after, limit) =>
      (
        await ask<{ entries: Entry[] }>(
          `/api/log?${new URLSearchParams({ after: String(after), limit: String(limit) })}`,
        )
      ).entries,
    close: async () => {},
  };
}

/** The server's answer, read as JSON. @throws Failed with the server's own sentence, or with what went wrong on the way */
async function request<T>(address: string, path: string, init: RequestInit = {}): Promise<T> {
  const answer = await reach(address, path, init);
  const text = await answer.text().catch((error: Error) => {
    throw new Failed(
      `The answer of Wareboard at ${address} broke off (${reason(error)}). Look whether it was done before doing it again.`,
    );
  });
  const body = readJson(text);
  if (!answer.ok) throw refusal(address, answer.status, body);
  if (body === undefined)
    throw new Failed(`What answers at ${address} is not Wareboard: ${text.slice(0, 60)}`);
  return body as T;
}

/** @throws Failed where nothing answers */
function reach(address: string, path: string, init: RequestInit): Promise<Response> {
  const from = { 'x-wareboard-device': 'command-line' };
  return fetch(`${address}${path}`, { ...init, headers: { ...from, ...init.headers } }).catch(
    (error: Error) => {
      throw new Failed(
        `Wareboard runs at ${address} but could not be reached (${reason(error)}). Nothing more was done.`,
      );
    },
  );
}

const refusal = (address: string, status: number, body: unknown): Failed =>
  new Failed(sentenceOf(body) ?? `Wareboard at ${address} answered with status ${status}.`);

function readJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

const sentenceOf = (body: unknown) => (body as Partial<Problem> | undefined)?.detail;

const reason = (error: Error) => (error.cause instanceof Error ? error.cause.message : error.message);
