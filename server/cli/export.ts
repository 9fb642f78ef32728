/** `export DIR`: everything that was recorded, in formats that other programs read. */
import { createWriteStream, existsSync } from 'node:fs';
import { mkdir, rename, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { beginsAsPdf } from '../contract/document.ts';
import type { Answer } from '../contract/figures.ts';
import { pictureType } from '../contract/picture/picture.ts';
import { answerCsv, csvLine, fieldsOf } from '../http/csv.ts';
import { count } from './counted.ts';
import { atWork } from './enter.ts';
import { Failed, type Verb } from './verb.ts';
import { exactly } from './words.ts';
import type { Workplace } from './workplace.ts';

/** The studio's lists, each a file of its own. */
const LISTS = ['ware', 'firings', 'materials', 'people'] as const;
const PAGE = 500;

export const exportVerb: Verb = {
  name: 'export',
  usage: 'export DIR',
  about: 'Write the log as JSON lines, the lists as CSV, the pictures and the documents into DIR',
  async run(words, desk) {
    const into = resolve(desk.cwd, exactly(words, exportVerb, 'dir').dir);
    if (existsSync(into)) throw new Failed(`${into} is there already; name a folder that is not.`);
    const unfinished = `${into}.unfinished`;
    const entries = await atWork(words, desk, async (at) => {
      await mkdir(unfinished, { recursive: true });
      const lines = await writeLog(at, join(unfinished, 'log.jsonl'));
      for (const sha256 of await at.pictures()) await writeFileOf(at, sha256, unfinished);
      for (const list of LISTS) await writeList(at, list, join(unfinished, `${list}.csv`));
      return lines;
    });
    await rename(unfinished, into);
    desk.terminal.out(
      `${count(entries, 'entry', 'entries')} and the lists ${LISTS.join(', ')} are in ${into}.\n`,
    );
    return 0;
  },
};

async function writeLog(at: Workplace, path: string): Promise<number> {
  let after = 0;
  async function* lines() {
    for (;;) {
      const page = await at.entries(after, PAGE);
      if (page.length === 0) return;
      for (const entry of page) yield `${JSON.stringify(entry)}\n`;
      after = page.at(-1)!.seq;
    }
  }
  await pipeline(Readable.from(lines()), createWriteStream(path));
  return after;
}

const ENDINGS = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' } as const;

/** Under the SHA-256 by which the log names it. */
async function writeFileOf(at: Workplace, sha256: string, into: string): Promise<void> {
  const bytes = await at.picture(sha256);
  const type = pictureType(bytes);
  const document = type === undefined && beginsAsPdf(bytes);
  const folder = join(into, document ? 'documents' : 'pictures');
  const ending = document ? '.pdf' : type === undefined ? '' : `.${ENDINGS[type]}`;
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, `${sha256}${ending}`), bytes);
}

/** A list that comes in pages says in `more.next` where the next begins. */
async function writeList(at: Workplace, list: string, path: string): Promise<void> {
  async function* text() {
    const first = await at.report('studio', list, paged(list));
    const fields = fieldsOf(first.rows);
    yield answerCsv(first);
    for (let answer = first; nextOf(answer) !== undefined; ) {
      answer = await at.report('studio', list, { ...paged(list), after: String(nextOf(answer)) });
      for (const row of answer.rows) yield csvLine(fields.map((field) => row[field]));
    }
  }
  await pipeline(Readable.from(text()), createWriteStream(path));
}

const paged = (list: string): Record<string, string> =>
  list === 'ware' || list === 'firings' ? { limit: String(PAGE) } : {};

const nextOf = (answer: Answer): number | undefined => answer.more?.next as number | undefined;
