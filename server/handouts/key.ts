/**
 * What links are signed with, and the address under which the world reaches this server, if there is one. Both
 * stay in the data folder, readable by its owner only; a new key shuts every link that was made before.
 */
import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { z } from 'zod';
import { readPrivate, writePrivate } from '../network/private-file.ts';

const FILE = 'links.json';
const kept = z.strictObject({
  key: z
    .string()
    .regex(/^[A-Za-z0-9_-]{43}$/)
    .optional(),
  address: z.url().optional(),
});
type Kept = z.infer<typeof kept>;

const pathIn = (folder: string): string => join(folder, FILE);

function read(folder: string): Kept {
  const text = readPrivate(pathIn(folder));
  if (text === undefined) return {};
  try {
    return kept.parse(JSON.parse(text));
  } catch {
    // A damaged file opens nothing; a new key writes it anew.
    return {};
  }
}

const write = (folder: string, now: Kept): void => writePrivate(pathIn(folder), `${JSON.stringify(now)}\n`);

/** Undefined where no link was made yet. @param folder the data folder */
export const linkKey = (folder: string): string | undefined => read(folder).key;

/** A new key, which shuts all links made before. */
export function newLinkKey(folder: string): string {
  const key = randomBytes(32).toString('base64url');
  write(folder, { ...read(folder), key });
  return key;
}

/** 'https://files.example': where buyers reach this server, as its owner says. */
export const outsideAddress = (folder: string): string | undefined => read(folder).address;

export function setOutsideAddress(folder: string, address: string | undefined): void {
  const { address: _, ...rest } = read(folder);
  write(folder, address === undefined ? rest : { ...rest, address });
}

/** Only https, and only a name with perhaps a port: links go out under it. Undefined where it is none. */
export function asOutsideAddress(text: string): string | undefined {
  const url = URL.canParse(text.trim()) ? new URL(text.trim()) : undefined;
  if (url?.protocol !== 'https:' || url.username || url.password) return undefined;
  if (url.pathname !== '/' || url.search || url.hash) return undefined;
  return url.origin;
}
