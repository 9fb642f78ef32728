/** A backup: copies of the log, its outside head and the erasable store, checked before it is called one. */
import {
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'libsql';
import { openLog } from '../log/open.ts';
import { copyPictures } from './pictures.ts';
import { BadBackup, KEPT, SEAL, type Seal, sha256Of } from './seal.ts';
import { verdictSentence } from './verdict.ts';

export interface BackupAsked {
  /** The data folder. It may be open and in use. */
  readonly dir: string;
  /** Folder that is not there yet. */
  readonly into: string;
  readonly clock: () => Date;
}

/**
 * The outside head is copied before the log, so that it is at most as far as the log; the texts after it, so that
 * every text the log speaks of is there.
 * @throws BadBackup when the folder is there already, or the copy is not sound
 */
export async function makeBackup({ dir, into, clock }: BackupAsked): Promise<Seal> {
  if (existsSync(into)) throw new BadBackup(`${into} is there already; name a folder that is not.`);
  if (!existsSync(join(dir, 'log.db'))) throw new BadBackup(`There is no log in ${dir} to back up.`);
  mkdirSync(into, { recursive: true });
  copyFileSync(join(dir, 'log.head'), join(into, 'log.head'), constants.COPYFILE_EXCL);
  vacuumInto(join(dir, 'log.db'), join(into, 'log.db'));
  if (existsSync(join(dir, 'people.db'))) vacuumInto(join(dir, 'people.db'), join(into, 'people.db'));
  if (existsSync(join(dir, 'mappings.json')))
    copyFileSync(join(dir, 'mappings.json'), join(into, 'mappings.json'));
  // After the log, so that every picture it speaks of is there.
  const pictures = await copyPictures(dir, into);
  const head = await verifiedAside(into, clock);
  const seal: Seal = {
    wareboard: 'backup',
    version: 2,
    made: clock().toISOString(),
    ...head,
    pictures,
    files: await filesOf(into),
  };
  writeFileSync(join(into, SEAL), `${JSON.stringify(seal, null, 2)}\n`);
  for (const path of [...KEPT, SEAL].map((name) => join(into, name))) if (existsSync(path)) sync(path);
  sync(into);
  sync(dirname(into));
  return seal;
}

function vacuumInto(from: string, into: string): void {
  const db = new Database(from, { timeout: 5_000 });
  try {
    db.prepare('VACUUM INTO ?').run(into);
  } finally {
    db.close();
  }
}

/** Opening a log leaves traces in its folder, so a copy of the copy is walked and the backup stays as it was written. */
async function verifiedAside(folder: string, clock: () => Date): Promise<{ entries: number; hash: string }> {
  const aside = join(folder, 'checking');
  mkdirSync(aside);
  try {
    for (const name of ['log.db', 'log.head'])
      copyFileSync(join(folder, name), join(aside, name), constants.COPYFILE_FICLONE);
    return await verified(aside, clock);
  } finally {
    rmSync(aside, { recursive: true, force: true });
  }
}

/** Walks the log in the folder. */
export async function verified(
  folder: string,
  clock: () => Date,
): Promise<{ entries: number; hash: string }> {
  const log = await openLog({ dir: folder, clock });
  try {
    const verdict = await log.verify();
    const fault = verdictSentence(verdict);
    if (fault !== undefined) throw new BadBackup(`The copy is not sound. ${fault}`);
    return { entries: verdict.head.count, hash: verdict.head.hash };
  } finally {
    await log.close();
  }
}

async function filesOf(folder: string): Promise<Seal['files']> {
  const files: Seal['files'] = {};
  for (const name of KEPT) {
    const path = join(folder, name);
    if (existsSync(path)) files[name] = { bytes: statSync(path).size, sha256: await sha256Of(path) };
  }
  return files;
}

function sync(path: string): void {
  const fd = openSync(path, 'r');
  fsyncSync(fd);
  closeSync(fd);
}
