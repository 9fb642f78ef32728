/** Finds the verb, runs it, and turns what went wrong into an exit code and a sentence. */
import { type Desk, WrongWords } from './verb.ts';
import { VERBS } from './verbs.ts';
import { readWords } from './words.ts';

/** Exit codes: 0 done, 1 refused or failed, 2 wrong words. */
export async function run(args: readonly string[], desk: Desk): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    if (name === undefined) desk.terminal.err(help());
    else desk.terminal.out(help());
    return name === undefined ? 2 : 0;
  }
  const verb = VERBS.find((each) => each.name === name);
  try {
    if (verb === undefined) throw new WrongWords(`There is no verb ${name}.\n\n${help().trimEnd()}`);
    const words = readWords(verb, rest);
    if (words.flag('help')) {
      desk.terminal.out(`wareboard ${verb.usage}\n\n${verb.about}.\n`);
      return 0;
    }
    return await verb.run(words, desk);
  } catch (error) {
    desk.terminal.err(`${(error as Error).message}\n`);
    return error instanceof WrongWords ? 2 : 1;
  }
}

export function help(): string {
  const verbs = VERBS.map(({ usage, about }) => `  ${usage}\n      ${about}`);
  return [
    'wareboard VERB',
    '',
    ...verbs,
    '',
    'Every verb takes --data DIR (or WAREBOARD_DATA; ./data when neither is given) and --plugins DIR.',
    'Exit code: 0 done, 1 refused or failed, 2 wrong words.',
    '',
  ].join('\n');
}
