/** `verify`: walks the whole log. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { picturesSentences, verdictSentence } from '../backup/verdict.ts';
import { acceptLog } from '../log/accept.ts';
import { atWork, dataFolder, lockOrServer } from './enter.ts';
import { isLock } from './lock.ts';
import { withBar } from './progress.ts';
import { type Desk, Failed, type Verb, type Words } from './verb.ts';
import { exactly } from './words.ts';

export const verify: Verb = {
  name: 'verify',
  usage: 'verify [--accept-loss]',
  about:
    'Walk the whole log, check every entry and every picture and say whether any is missing; with --accept-loss go on with what is left',
  options: { 'accept-loss': { type: 'boolean' } },
  async run(words, desk) {
    exactly(words, verify);
    if (words.flag('accept-loss')) return accept(words, desk);
    const verdict = await atWork(words, desk, (at) =>
      withBar(desk.terminal, 'Verifying', (progress) => at.verify(progress)),
    );
    const fault = verdictSentence(verdict);
    const pictures = picturesSentences(verdict.files);
    const faults = [...(fault === undefined ? [] : [fault]), ...pictures];
    if (faults.length > 0) {
      desk.terminal.err(`${faults.join('\n')}\n`);
      return 1;
    }
    const { entries, head, files } = verdict;
    const fit = entries === 1 ? 'The one entry fits' : `All ${entries} entries fit`;
    desk.terminal.out(
      entries === 0 ? 'The log is empty.\n' : `${fit}. The last one’s hash is ${head.hash}.\n`,
    );
    if (files.kept > 0) {
      const whole = files.kept === 1 ? 'The one picture is' : `All ${files.kept} pictures are`;
      desk.terminal.out(`${whole} as kept.\n`);
    }
    return 0;
  },
};

/** For a log that has lost its last entries and has no backup: only the operator can say that it is to go on so. */
async function accept(words: Words, desk: Desk): Promise<number> {
  const dir = dataFolder(words, desk);
  if (!existsSync(join(dir, 'log.db'))) throw new Failed(`There is no log in ${dir}.`);
  const lock = await lockOrServer(dir);
  if (!isLock(lock)) throw new Failed(`A server has ${dir} open at ${lock.address}; stop it first.`);
  try {
    const verdict = await acceptLog(dir);
    if (verdict.broken !== undefined)
      throw new Failed(`${verdictSentence(verdict)} Restore a backup instead.`);
    desk.terminal.out(`The log goes on with the ${verdict.entries} entries that are there.\n`);
    return 0;
  } finally {
    lock.release();
  }
}
