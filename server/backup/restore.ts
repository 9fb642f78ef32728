/** Puts a backup in the place of the data folder; what was there is kept aside. */
import { copyFileSync, cpSync, existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { openLog } from '../log/open.ts';
import { NETWORK } from '../network/network.ts';
import { checkBackup } from './check.ts';
import { verified } from './make.ts';
import { copyPictures } from './pictures.ts';
import { BadBackup, type Seal } from './seal.ts';

export interface RestoreAsked {
  readonly backup: string;
  /** The data folder; nobody else may have it open. */
  readonly dir: string;
  readonly clock: () => Date;
  /** Even over a log that holds what the backup does not. */
  readonly force: boolean;
}

export interface Restored {
  readonly seal: Seal;
  /** Where the folder that was there is kept now. */
  readonly aside?: string;
}

/** @throws BadBackup when the backup is not sound, or the present log holds more */
export async function restore({ backup, dir, clock, force }: RestoreAsked): Promise<Restored> {
  const seal = await checkBackup(backup);
  const present = existsSync(join(dir, 'log.db'));
  if (present && !force) await refuseOverNewer(dir, seal, clock);
  const stamp = clock().toISOString().replace(/[-:]/g, '').slice(0, 15);
  const next = `${dir}.restoring-${stamp}`;
  mkdirSync(next, { recursive: true });
  for (const name of Object.keys(seal.files)) copyFileSync(join(backup, name), join(next, name));
  await copyPictures(backup, next);
  try {
    const found = await verified(next, clock);
    if (found.hash !== seal.hash) throw new BadBackup('The backup’s log does not end as its list says.');
  } catch (error) {
    rmSync(next, { recursive: true, force: true });
    throw error;
  }
  if (!existsSync(dir)) {
    renameSync(next, dir);
    return { seal };
  }
  const aside = `${dir}.before-restore-${stamp}`;
  // Not of the record: a device that was sent away must not come back with an old backup, nor have to be trusted anew.
  if (existsSync(join(dir, NETWORK))) cpSync(join(dir, NETWORK), join(next, NETWORK), { recursive: true });
  renameSync(dir, aside);
  renameSync(next, dir);
  return { seal, aside };
}

async function refuseOverNewer(dir: string, seal: Seal, clock: () => Date): Promise<void> {
  const log = await openLog({ dir, clock }).catch(() => undefined);
  // What cannot be opened has nothing that could be carried on with; it is kept aside all the same.
  if (log === undefined) return;
  try {
    const head = await log.head();
    if (head.count > seal.entries) {
      const more = head.count - seal.entries;
      throw new BadBackup(
        `The log in ${dir} holds ${more} ${more === 1 ? 'entry' : 'entries'} more than the backup, which would no longer be there. Add --force to restore all the same; the folder is kept aside.`,
      );
    }
    if (head.count === seal.entries && head.hash !== seal.hash) {
      throw new BadBackup(
        `The log in ${dir} is another one than that of the backup. Add --force to restore all the same; the folder is kept aside.`,
      );
    }
  } finally {
    await log.close();
  }
}
