/** `import notebook FILE`: a file comes in. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Summary } from '../import/notebook/import.ts';
import { atWork } from './enter.ts';
import { importOutcome } from './import-outcome.ts';
import { withBar } from './progress.ts';
import { type Desk, Failed, type Verb, WrongWords } from './verb.ts';
import { exactly } from './words.ts';

export const importVerb: Verb = {
  name: 'import',
  usage: 'import notebook FILE [--dry-run] [--map HEADING=COLUMN]…',
  about: 'Record the rows of a notebook (CSV); with --dry-run only say what would be recorded',
  options: {
    'dry-run': { type: 'boolean' },
    map: { type: 'string', multiple: true },
    firing: { type: 'string' },
  },
  async run(words, desk) {
    const [kind] = words.rest;
    if (kind !== undefined) refuseUnknown(kind, desk);
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
    return importOutcome(summary as Summary, asked.dryRun, desk.terminal);
  },
};

function refuseUnknown(kind: string, { parts }: Desk): void {
  if (Object.hasOwn(parts.imports, kind)) return;
  const offered = Object.keys(parts.imports).join(', ');
  throw new WrongWords(`No plugin here imports ${kind}; what can be imported: ${offered}.`);
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
