/** `import notebook FILE`: a file comes in. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { atWork } from './enter.ts';
import { importOutcome, type Told } from './import-outcome.ts';
import { importsOffered, notImported } from './imports-offered.ts';
import { withBar } from './progress.ts';
import { type Desk, Failed, type Verb, type Words, WrongWords } from './verb.ts';
import { exactly } from './words.ts';

export const importVerb: Verb = {
  name: 'import',
  usage: 'import notebook|orders FILE [--dry-run] [--map HEADING=COLUMN]…',
  about: 'Record the rows of a notebook or of orders (CSV); with --dry-run only say what would be recorded',
  options: {
    'dry-run': { type: 'boolean' },
    map: { type: 'string', multiple: true },
    firing: { type: 'string' },
  },
  async run(words, desk) {
    const [kind] = words.rest;
    if (kind !== undefined) refuseUnknown(kind, words, desk);
    const file = resolve(desk.cwd, exactly(words, importVerb, 'kind', 'file').file);
    if (!existsSync(file)) throw new Failed(`There is no file ${file}.`);
    const asked = {
      kind: kind!,
      file,
      dryRun: words.flag('dry-run'),
      mapping: mappingOf(words.texts('map')),
    };
    const summary = await atWork(words, desk, (at) =>
      withBar(desk.terminal, 'Importing', (progress) => at.import(asked, progress)),
    );
    return importOutcome(summary as Told, asked.dryRun, desk.terminal);
  },
};

/** A plugin from elsewhere may take in other kinds, which only the one who loads it knows. */
function refuseUnknown(kind: string, words: Words, { parts }: Desk): void {
  const offered = importsOffered(parts);
  if (offered.includes(kind) || words.text('plugins') !== undefined) return;
  throw new WrongWords(notImported(kind, offered));
}

/** The column follows the last '=', so that a heading may hold one. @throws WrongWords */
function mappingOf(pairs: readonly string[]): Record<string, string> | undefined {
  if (pairs.length === 0) return undefined;
  const mapping = pairs.map((pair) => {
    const at = pair.lastIndexOf('=');
    if (at < 1 || at === pair.length - 1) throw new WrongWords(`--map wants HEADING=COLUMN, not ${pair}.`);
    return [pair.slice(0, at), pair.slice(at + 1)] as const;
  });
  return Object.fromEntries(mapping);
}
