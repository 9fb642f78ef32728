/** `restore DIR`: puts a backup in the place of the data folder. */
import { randomUUID } from 'node:crypto';
import { rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { restore as putBack } from '../backup/restore.ts';
import { count } from './counted.ts';
import { dataFolder } from './enter.ts';
import { isLock, LOCK, takeLock } from './lock.ts';
import { Failed, type Verb } from './verb.ts';
import { exactly } from './words.ts';

export const restore: Verb = {
  name: 'restore',
  usage: 'restore DIR [--force]',
  about: 'Put the backup in DIR in the place of the data folder, which is kept aside',
  options: { force: { type: 'boolean' } },
  async run(words, desk) {
    const from = resolve(desk.cwd, exactly(words, restore, 'dir').dir);
    const dir = dataFolder(words, desk);
    const lock = takeLock(dir, randomUUID());
    if (!isLock(lock)) {
      throw new Failed(
        `${dir} is in use${lock.address === undefined ? '' : ` by the server at ${lock.address}`}; stop it first.`,
      );
    }
    try {
      const { seal, aside } = await putBack({
        backup: from,
        dir,
        clock: desk.clock,
        force: words.flag('force'),
      });
      if (aside !== undefined) rmSync(join(aside, LOCK), { force: true });
      desk.terminal.out(
        `${count(seal.entries, 'entry', 'entries')}, as backed up on ${seal.made.slice(0, 10)}, in ${dir}.\n`,
      );
      if (aside !== undefined) desk.terminal.out(`What was there is kept in ${aside}.\n`);
      desk.terminal.out('Whoever was forgotten since then has to be forgotten again.\n');
      return 0;
    } finally {
      lock.release();
    }
  },
};
