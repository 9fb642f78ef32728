/**
 * `template FILE --paper A4 --to OUT.pdf`: a form's or drawing's pieces on sheets of true size. Nothing is
 * recorded, and no data folder is needed.
 */
import { readFile, stat } from 'node:fs/promises';
import { basename, extname, resolve } from 'node:path';
import { type Ask, AskRefused, type PaperOffer, type Report } from '../contract/plugin.ts';
import { writePdf } from './paper.ts';
import { pluginsFor } from './plugin-folder.ts';
import { type Desk, Failed, type Verb, type Words, WrongWords } from './verb.ts';
import { exactly } from './words.ts';

const PLUGIN = 'template-sheets';
/** A larger file is no template. */
const MOST_BYTES = 20_000_000;

export const template: Verb = {
  name: 'template',
  usage:
    'template SPEC.json|FILE.svg [--paper A4|A3|Letter|Tabloid|"roll 610"] [--shrinkage 0.12] [--nested yes|no] [--to OUT.pdf] [--json] [--maker NAME] [--licence WORDS] [--how-to FILE.txt] [--order NUMBER]',
  about: 'Print a form’s or drawing’s pieces at true size, or tell them as JSON',
  options: {
    paper: { type: 'string' },
    to: { type: 'string' },
    json: { type: 'boolean' },
    'how-to': { type: 'string' },
    shrinkage: { type: 'string' },
    nested: { type: 'string' },
    maker: { type: 'string' },
    licence: { type: 'string' },
    order: { type: 'string' },
  },
  async run(words, desk) {
    const { file } = exactly(words, template, 'file');
    const to = words.text('to');
    if (to === undefined && !words.flag('json'))
      throw new WrongWords('Say where the sheets go (--to OUT.pdf), or ask for --json.');
    const [pieces, sheets] = await offers(words, desk);
    const asked = await askedOf(file, words, desk);
    const path = resolve(desk.cwd, file);
    try {
      const answer = await pieces.run(offline(desk), inputOf(pieces, asked));
      for (const note of answer.notes) desk.terminal.err(`${note}\n`);
      if (to !== undefined) {
        const own = { ...asked, ...(await wordsOf(words, desk)) };
        const paper = await sheets.run(offline(desk), inputOf(sheets, own));
        const { drawPaper } = await import('../paper/draw.ts');
        const day = desk.clock().toISOString().slice(0, 10);
        await writePdf(resolve(desk.cwd, to), await drawPaper(paper, { studio: own.maker ?? '', day }));
      }
      if (words.flag('json')) desk.terminal.out(`${JSON.stringify(answer.more?.template)}\n`);
      return 0;
    } catch (error) {
      if (error instanceof AskRefused) throw new Failed(`${path}: ${error.message}`);
      throw error;
    }
  },
};

async function offers(words: Words, desk: Desk): Promise<[Report, PaperOffer]> {
  const plugin = (await pluginsFor(words, desk)).find(({ id }) => id === PLUGIN);
  const pieces = plugin?.reports?.pieces;
  const sheets = plugin?.papers?.sheets;
  if (!pieces || !sheets) throw new WrongWords('No plugin here makes templates.');
  return [pieces, sheets];
}

async function askedOf(file: string, words: Words, desk: Desk): Promise<Record<string, string>> {
  const text = await textOf(file, desk);
  const drawn = extname(file).toLowerCase() === '.svg' || /^\s*</.test(text);
  return {
    ...(drawn ? { svg: text, name: basename(file, extname(file)) } : { spec: text }),
    paper: words.text('paper') ?? 'A4',
    ...given(words, ['shrinkage', 'nested']),
  };
}

async function wordsOf(words: Words, desk: Desk): Promise<Record<string, string>> {
  const howTo = words.text('how-to');
  return {
    maker: words.text('maker') ?? '',
    ...given(words, ['licence', 'order']),
    ...(howTo === undefined ? {} : { howTo: await textOf(howTo, desk) }),
  };
}

/** Those of the options that were given. */
const given = (words: Words, names: readonly string[]): Record<string, string> =>
  Object.fromEntries(
    names.flatMap((name) => (words.text(name) === undefined ? [] : [[name, words.text(name)!]])),
  );

/** @throws Failed */
async function textOf(file: string, { cwd }: Desk): Promise<string> {
  const path = resolve(cwd, file);
  try {
    const { size } = await stat(path);
    if (size > MOST_BYTES) throw new Failed(`${path} is larger than ${MOST_BYTES / 1_000_000} MB.`);
    return await readFile(path, 'utf8');
  } catch (error) {
    if (error instanceof Failed) throw error;
    throw new Failed(`${path} could not be read (${(error as NodeJS.ErrnoException).code}).`);
  }
}

/** @throws WrongWords naming the option */
function inputOf({ input }: Pick<Report, 'input'>, asked: Record<string, string>): unknown {
  const read = input.safeParse(asked);
  if (read.success) return read.data;
  const { path, message } = read.error.issues[0]!;
  throw new WrongWords(
    `--${path.join('.')}: ${message}. “${asked[String(path[0])]?.slice(0, 40)}” was given.`,
  );
}

/** What a plugin may ask where no studio is open. */
function offline({ clock }: Desk): Ask {
  const none = () => {
    throw new Error('no studio is open');
  };
  return {
    query: none,
    db: undefined as never,
    story: none,
    state: none,
    textSearch: none,
    settings: { studio: '', zone: 'UTC', currency: 'GBP', yearStart: '01-01' },
    today: clock().toISOString().slice(0, 10),
  } as unknown as Ask;
}
