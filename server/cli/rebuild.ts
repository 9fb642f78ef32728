/** `rebuild`: makes read models again from the log. */
import { atWork } from './enter.ts';
import { withBar } from './progress.ts';
import { type Verb, WrongWords } from './verb.ts';

export const rebuild: Verb = {
  name: 'rebuild',
  usage: 'rebuild [PLUGIN]',
  about: 'Throw the read models away, or one plugin’s, and build them again from the log',
  async run(words, desk) {
    const [plugin, ...more] = words.rest;
    if (more.length > 0) throw new WrongWords(`It is: wareboard ${rebuild.usage}`);
    await atWork(words, desk, (at) =>
      withBar(desk.terminal, 'Building', (progress) => at.rebuild(plugin, progress)),
    );
    desk.terminal.out(
      plugin === undefined
        ? 'All read models are built again.\n'
        : `The read model of ${plugin} is built again.\n`,
    );
    return 0;
  },
};
