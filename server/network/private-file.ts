/** Small files that only the studio's own account may read: written whole or not at all. */
import { chmodSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

const ONLY_OWNER = 0o600;

/** Puts the text in the place of what is there. */
export function writePrivate(path: string, text: string): void {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  const aside = `${path}.${process.pid}.new`;
  writeFileSync(aside, text, { mode: ONLY_OWNER });
  renameSync(aside, path);
}

/** The text, or undefined where there is no such file. One that others could read is closed to them first. */
export function readPrivate(path: string): string | undefined {
  try {
    if ((statSync(path).mode & 0o077) !== 0) chmodSync(path, ONLY_OWNER);
    return readFileSync(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}
