/** `forget PERSON`: erases a person's name and every text about them. */
import { atWork } from './enter.ts';
import { Failed, type Verb } from './verb.ts';
import { exactly } from './words.ts';

export const forget: Verb = {
  name: 'forget',
  usage: 'forget PERSON',
  about:
    'Erase a person’s name and every text about them (PERSON is the id that `report studio people` shows)',
  async run(words, desk) {
    const { person } = exactly(words, forget, 'person');
    const outcome = await atWork(words, desk, (at) => at.forget(person));
    if (outcome.outcome === 'refused') throw new Failed(outcome.refusal.sentence);
    desk.terminal.out(`${person} is forgotten. Backups made before still hold what was erased.\n`);
    return 0;
  },
};
