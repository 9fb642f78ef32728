/** `paper PLUGIN PAPER --to OUT.pdf`: a paper as a PDF. */
import { writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { atWork } from './enter.ts';
import { Failed, type Verb, WrongWords } from './verb.ts';
import { exactly } from './words.ts';

export const paper: Verb = {
  name: 'paper',
  usage: 'paper PLUGIN PAPER [--NAME VALUE] [--as-at DAY] [--known-at DAY] --to OUT.pdf',
  about: 'Make a paper to print, as a PDF of true size',
  options: { to: { type: 'string' } },
  anyOption: true,
  async run(words, desk) {
    const asked = exactly(words, paper, 'plugin', 'paper');
    const to = words.text('to');
    if (to === undefined) throw new WrongWords('--to OUT.pdf must say where the paper goes.');
    const pdf = await atWork(words, desk, (at) => at.paper(asked.plugin, asked.paper, words.others));
    await writePdf(resolve(desk.cwd, to), pdf);
    return 0;
  },
};

/** @throws Failed where the file cannot be written */
export async function writePdf(path: string, pdf: Uint8Array): Promise<void> {
  await writeFile(path, pdf).catch((error: NodeJS.ErrnoException) => {
    throw new Failed(`${path} could not be written (${error.code ?? error.message}).`);
  });
}
