/** `verify`: walks the whole log. */
import { verdictSentence } from '../backup/verdict.ts';
import { atWork } from './enter.ts';
import { withBar } from './progress.ts';
import type { Verb } from './verb.ts';
import { exactly } from './words.ts';

export const verify: Verb = {
  name: 'verify',
  usage: 'verify',
  about: 'Walk the whole log, check every entry and say whether any is missing',
  async run(words, desk) {
    exactly(words, verify);
    const verdict = await atWork(words, desk, (at) =>
      withBar(desk.terminal, 'Verifying', (progress) => at.verify(progress)),
    );
    const fault = verdictSentence(verdict);
    if (fault !== undefined) {
      desk.terminal.err(`${fault}\n`);
      return 1;
    }
    const { entries, head } = verdict;
    const fit = entries === 1 ? 'The one entry fits' : `All ${entries} entries fit`;
    desk.terminal.out(
      entries === 0 ? 'The log is empty.\n' : `${fit}. The last one’s hash is ${head.hash}.\n`,
    );
    return 0;
  },
};
