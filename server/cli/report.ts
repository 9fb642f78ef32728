/** `report PLUGIN REPORT`: an answer as a table, JSON or CSV. */
import { answerCsv } from '../http/csv.ts';
import { atWork } from './enter.ts';
import { plainAnswer } from './plain-table.ts';
import { type Verb, WrongWords } from './verb.ts';
import { exactly } from './words.ts';

export const report: Verb = {
  name: 'report',
  usage:
    'report PLUGIN REPORT [--from DAY] [--to DAY] [--NAME VALUE] [--as-at DAY] [--known-at DAY] [--json | --csv]',
  about: 'Ask a report',
  options: { json: { type: 'boolean' }, csv: { type: 'boolean' } },
  anyOption: true,
  async run(words, desk) {
    const asked = exactly(words, report, 'plugin', 'report');
    if (words.flag('json') && words.flag('csv')) throw new WrongWords('It is either --json or --csv.');
    const answer = await atWork(words, desk, (at) => at.report(asked.plugin, asked.report, words.others));
    if (words.flag('json')) desk.terminal.out(`${JSON.stringify(answer, null, 2)}\n`);
    else desk.terminal.out(words.flag('csv') ? answerCsv(answer) : plainAnswer(answer));
    return 0;
  },
};
