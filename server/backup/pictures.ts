/** Pictures in a backup: each is named by what is in it, and the seal says which there are. */
import { constants, copyFileSync, existsSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { FILES, Files, type Kept, sha256Of } from '../files/store.ts';
import { BadBackup, type Seal } from './seal.ts';

/** Copies what is kept, and the marks of what was erased. A file that is there already is the same. */
export async function copyPictures(from: string, into: string): Promise<NonNullable<Seal['pictures']>> {
  const [source, target] = [new Files(join(from, FILES)), new Files(join(into, FILES))];
  const all = await source.list();
  for (const each of all) {
    if (each.standing === 'erased') {
      await target.erase(each.sha256);
      continue;
    }
    const path = target.path(each.sha256);
    mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
    if (!existsSync(path)) copyFileSync(source.path(each.sha256), path, constants.COPYFILE_FICLONE);
  }
  return namesOf(all);
}

/** @throws BadBackup naming the picture that is missing or changed */
export async function checkPictures(folder: string, said: Seal['pictures']): Promise<void> {
  if (said === undefined) return;
  const files = new Files(join(folder, FILES));
  const all = await files.list();
  for (const { sha256, standing } of all)
    if (standing === 'kept' && !(await files.isWhole(sha256)))
      throw new BadBackup(
        `The picture ${sha256} in the backup in ${folder} is not as it was when it was kept.`,
      );
  const { count, names } = namesOf(all);
  if (count !== said.count)
    throw new BadBackup(`The backup in ${folder} holds ${count} pictures, and was made with ${said.count}.`);
  if (names !== said.names)
    throw new BadBackup(`The pictures in the backup in ${folder} are other ones than it was made with.`);
}

function namesOf(all: readonly Kept[]): NonNullable<Seal['pictures']> {
  const text = all.map(({ sha256, standing }) => `${sha256} ${standing}`).join('\n');
  return { count: all.length, names: sha256Of(new TextEncoder().encode(text)) };
}
