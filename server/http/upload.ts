/** A file that comes in is written to disk as it arrives, never held in memory. */
import { createWriteStream } from 'node:fs';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import type { ReadableStream } from 'node:stream/web';
import { ProblemError } from './problems.ts';

export const UPLOAD_LIMIT = 512 * 1024 * 1024;

export interface Upload {
  readonly path: string;
  readonly bytes: number;
  /** Takes the file away again. */
  remove(): Promise<void>;
}

export interface UploadOptions {
  /** Folder for files that are only here while they are read. */
  readonly folder: string;
  /** Largest file in bytes. */
  readonly limit: number;
}

const tooLarge = (limit: number) =>
  new ProblemError('too-large', {
    detail: `The file is larger than ${(limit / 1024 / 1024).toLocaleString('en-GB')} MB, the most that is taken at once; split it and import the parts one after another.`,
  });

/**
 * @param declared the Content-Length, when there is one: a file that says it is too large is not read at all
 * @throws ProblemError too-large, bad-input when the body is missing or cut off
 */
export async function receive(
  body: ReadableStream | null,
  declared: string | undefined,
  options: UploadOptions,
): Promise<Upload> {
  if (declared !== undefined && Number(declared) > options.limit) throw tooLarge(options.limit);
  if (body === null) throw new ProblemError('bad-input', { detail: 'There is no file in the request.' });
  await mkdir(options.folder, { recursive: true, mode: 0o700 });
  const folder = await mkdtemp(join(options.folder, 'incoming-'));
  const remove = () => rm(folder, { recursive: true, force: true });
  const path = join(folder, 'file');
  const counted = { bytes: 0 };
  try {
    await pipeline(upTo(options.limit, body, counted), createWriteStream(path, { mode: 0o600, flags: 'wx' }));
  } catch (error) {
    await remove();
    if (error instanceof ProblemError) throw error;
    throw new ProblemError('bad-input', {
      detail: 'The file did not arrive whole; nothing of it was recorded. Send it again.',
    });
  }
  return { path, bytes: counted.bytes, remove };
}

/**
 * What comes in, as far as the limit. What is over is let go and not cancelled: that would cut the connection, and
 * the sender would never read why.
 */
async function* upTo(
  limit: number,
  body: ReadableStream,
  counted: { bytes: number },
): AsyncGenerator<Uint8Array> {
  const reader = body.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      counted.bytes += value.length;
      if (counted.bytes > limit) throw tooLarge(limit);
      yield value;
    }
  } finally {
    reader.releaseLock();
  }
}
