/** `new plugin NAME`: a folder with a small plugin that works. */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { newPluginFiles } from './new-plugin-files.ts';
import { findProject } from './project.ts';
import { Failed, type Verb, WrongWords } from './verb.ts';
import { exactly } from './words.ts';

const ID = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;

export const newVerb: Verb = {
  name: 'new',
  usage: 'new plugin NAME [--plugins DIR]',
  about: 'Write a small plugin that works, with a README and a test, into DIR (./plugins when left out)',
  async run(words, { cwd, terminal, parts }) {
    const { what, name } = exactly(words, newVerb, 'what', 'name');
    if (what !== 'plugin') throw new WrongWords(`It is: wareboard ${newVerb.usage}`);
    if (!ID.test(name))
      throw new WrongWords(
        `A plugin is named in lower-case words with hyphens, such as kiln-log; not ${name}.`,
      );
    if (parts.plugins.some(({ id }) => id === name))
      throw new Failed(`Wareboard has a plugin ${name} already.`);
    const folder = join(resolve(cwd, words.text('plugins') ?? 'plugins'), name);
    if (existsSync(folder)) throw new Failed(`${folder} is there already.`);
    mkdirSync(folder, { recursive: true });
    const contract = relative(folder, join(findProject().root, 'server', 'contract')).replaceAll('\\', '/');
    const files = newPluginFiles({ id: name, contract });
    for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
    terminal.out(`${folder} holds the plugin ${name}: ${Object.keys(files).join(', ')}.\n`);
    return 0;
  },
};
