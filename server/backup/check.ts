/** Whether a folder is a backup, whole and unchanged. */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { checkPictures } from './pictures.ts';
import { BadBackup, SEAL, type Seal, sealShape, sha256Of } from './seal.ts';

/** @throws BadBackup naming the file that is missing or other than it was */
export async function checkBackup(folder: string): Promise<Seal> {
  const seal = readSeal(folder);
  for (const [name, said] of Object.entries(seal.files)) {
    if (said === undefined) continue;
    const path = join(folder, name);
    if (!existsSync(path)) throw new BadBackup(`${name} is missing from the backup in ${folder}.`);
    const unlike = statSync(path).size !== said.bytes || (await sha256Of(path)) !== said.sha256;
    if (unlike)
      throw new BadBackup(`${name} in the backup in ${folder} is not as it was when the backup was made.`);
  }
  await checkPictures(folder, seal.pictures);
  return seal;
}

function readSeal(folder: string): Seal {
  const path = join(folder, SEAL);
  if (!existsSync(path)) throw new BadBackup(`${folder} holds no backup: there is no ${SEAL} in it.`);
  try {
    return sealShape.parse(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    throw new BadBackup(`${SEAL} in ${folder} cannot be read.`);
  }
}
