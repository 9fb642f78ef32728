/** A paper becomes a PDF. */
import type { Paper } from '../contract/paper.ts';
import { Canvas } from './canvas.ts';
import { ownWords } from './flow/foot.ts';
import { pagesOf } from './flow/pages.ts';
import { FontBook } from './fonts/book.ts';
import { drawMarks, plain } from './marks.ts';
import { tidy } from './text/clusters.ts';

export interface Printing {
  /** The studio's name. */
  readonly studio: string;
  /** 'YYYY-MM-DD', of the foot and of the file. */
  readonly day: string;
}

/**
 * Draws a paper whose references are filled in. The same paper on the same day is the same file.
 * @throws where a picture or a path is not what it says it is
 */
export async function drawPaper(paper: Paper, { studio, day }: Printing): Promise<Uint8Array> {
  const language = paper.language ?? 'en-GB';
  const book = new FontBook();
  await prepare(paper, book, undefined);
  for (const text of ownWords(studio, day)) await book.prepare(text);
  const sheets = paper.form === 'sheets' ? paper.sheets : pagesOf(paper, { studio, day }, book);
  const canvas = new Canvas({ title: plain(paper.title), author: studio, language, day });
  for (const { width, height, marks } of sheets) {
    canvas.page(width, height);
    drawMarks(marks, canvas, book);
  }
  return canvas.finish();
}

/** Fields that hold no words to be set. */
const NO_WORDS = new Set(['d', 'base64', 'points']);

/** Reads the fonts for every text in the paper. */
async function prepare(part: unknown, book: FontBook, language: string | undefined): Promise<void> {
  if (typeof part === 'string') return book.prepare(tidy(part), language);
  if (typeof part !== 'object' || part === null) return;
  const own = 'language' in part && 'mark' in part ? (part.language as string | undefined) : language;
  for (const [name, inner] of Object.entries(part)) if (!NO_WORDS.has(name)) await prepare(inner, book, own);
}
