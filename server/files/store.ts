/** Files by the SHA-256 of what is in them: `files/ab/cdef…`. What is there never changes; it can be erased. */
import { createHash, randomUUID } from 'node:crypto';
import { createReadStream, existsSync, rmSync, statSync, utimesSync } from 'node:fs';
import { mkdir, open, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';

export type FileStanding = 'kept' | 'erased' | 'missing';

export interface Kept {
  readonly sha256: string;
  readonly standing: Exclude<FileStanding, 'missing'>;
}

/** Folder of the data folder. */
export const FILES = 'files';
/** Stands in the place of an erased one, so that it is known not to be lost and is not taken in again. */
const ERASED = '.erased';
const HASH = /^[0-9a-f]{64}$/;

export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

export class Files {
  /** @param folder FILES in the data folder; made when it is first needed */
  constructor(private readonly folder: string) {}

  /** Where a file is, or would be. @throws on what is no SHA-256: no path is made from anything else */
  path(sha256: string): string {
    if (!HASH.test(sha256)) throw new Error('A file is named by 64 hexadecimal figures.');
    return join(this.folder, sha256.slice(0, 2), sha256.slice(2));
  }

  standing(sha256: string): FileStanding {
    const path = this.path(sha256);
    if (existsSync(path + ERASED)) return 'erased';
    return existsSync(path) ? 'kept' : 'missing';
  }

  /** Durable when it resolves; the same again is harmless. An erased one stays erased. */
  async keep(bytes: Uint8Array): Promise<string> {
    const sha256 = sha256Of(bytes);
    if (this.standing(sha256) !== 'missing') {
      this.touch(sha256);
      return sha256;
    }
    const path = this.path(sha256);
    await mkdir(dirname(path), { recursive: true, mode: 0o700 });
    const aside = `${path}.${randomUUID()}.new`;
    try {
      const file = await open(aside, 'wx', 0o600);
      try {
        await file.writeFile(bytes);
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(aside, path);
    } catch (error) {
      await rm(aside, { force: true });
      throw error;
    }
    return sha256;
  }

  /** It was sent or named just now. */
  touch(sha256: string): void {
    try {
      const now = new Date();
      utimesSync(this.path(sha256), now, now);
    } catch {
      // Erased, or on a disk that keeps no times: then it is let go of no sooner than it was before.
    }
  }

  /** When it was last sent or named; undefined where it is not kept. */
  touched(sha256: string): Date | undefined {
    return statSync(this.path(sha256), { throwIfNoEntry: false })?.mtime;
  }

  /**
   * Removes one that nobody has sent or named since then. Looked at and removed in one breath, so that
   * nothing of this program comes in between. @returns whether it was
   */
  letGo(sha256: string, since: Date): boolean {
    const touched = this.touched(sha256);
    if (touched === undefined || touched >= since) return false;
    rmSync(this.path(sha256));
    return true;
  }

  async read(sha256: string): Promise<Buffer | undefined> {
    return this.standing(sha256) === 'kept' ? readFile(this.path(sha256)) : undefined;
  }

  /** Whether it holds what its name says. */
  async isWhole(sha256: string): Promise<boolean> {
    const hash = createHash('sha256');
    await pipeline(createReadStream(this.path(sha256)), hash);
    return hash.digest('hex') === sha256;
  }

  async erase(sha256: string): Promise<void> {
    const path = this.path(sha256);
    await mkdir(dirname(path), { recursive: true, mode: 0o700 });
    // The mark first: cut off in between, it is done again.
    await writeFile(path + ERASED, '', { mode: 0o600 });
    await rm(path, { force: true });
  }

  /** All that is kept or erased, in order of their names. */
  async list(): Promise<Kept[]> {
    if (!existsSync(this.folder)) return [];
    const kept: Kept[] = [];
    for (const first of (await readdir(this.folder)).sort()) {
      for (const name of (await readdir(join(this.folder, first))).sort()) {
        const erased = name.endsWith(ERASED);
        const sha256 = first + (erased ? name.slice(0, -ERASED.length) : name);
        if (HASH.test(sha256)) kept.push({ sha256, standing: erased ? 'erased' : 'kept' });
      }
    }
    return kept;
  }
}
