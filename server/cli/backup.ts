/** `backup DIR`: a verified copy of what cannot be made again. */

import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { count } from './counted.ts';
import { atWork } from './enter.ts';
import { withBar } from './progress.ts';
import { Failed, type Verb } from './verb.ts';
import { exactly } from './words.ts';

export const backup: Verb = {
  name: 'backup',
  usage: 'backup DIR',
  about: 'Copy the log and the erasable store into DIR, and check the copy',
  async run(words, desk) {
    const into = resolve(desk.cwd, exactly(words, backup, 'dir').dir);
    if (existsSync(into)) throw new Failed(`${into} is there already; name a folder that is not.`);
    if (desk.env.WAREBOARD_LOG_URL !== undefined) {
      throw new Failed('The log is kept on a libsql server: back it up there. `export` works from here.');
    }
    const entries = await atWork(words, desk, (at) =>
      withBar(desk.terminal, 'Backing up', (progress) => at.backup(into, progress)),
    );
    desk.terminal.out(`${count(entries, 'entry is', 'entries are')} backed up in ${into}, and checked.\n`);
    return 0;
  },
};
