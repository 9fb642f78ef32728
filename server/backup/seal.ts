/** What a backup says of itself: which files it has and what they hold. */
import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import { z } from 'zod';

/** File of a backup that lists the others. */
export const SEAL = 'backup.json';
/** Of the data folder: the log, its outside head, the erasable store, remembered headings. Read models are made again. */
export const KEPT = ['log.db', 'log.head', 'people.db', 'mappings.json'] as const;

export const sealShape = z.object({
  wareboard: z.literal('backup'),
  /** 1 knew no pictures. */
  version: z.union([z.literal(1), z.literal(2)]),
  /** UTC instant. */
  made: z.iso.datetime(),
  entries: z.number().int(),
  /** Hash of the last entry. */
  hash: z.string(),
  /** How many pictures there are, erased ones' marks included, and the SHA-256 of all their names. */
  pictures: z.object({ count: z.number().int(), names: z.string() }).optional(),
  files: z.partialRecord(z.enum(KEPT), z.object({ bytes: z.number().int(), sha256: z.string() })),
});
export type Seal = z.infer<typeof sealShape>;

export class BadBackup extends Error {
  override readonly name = 'BadBackup';
}

export async function sha256Of(path: string): Promise<string> {
  const hash = createHash('sha256');
  await pipeline(createReadStream(path), hash);
  return hash.digest('hex');
}
