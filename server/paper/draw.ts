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
  for (const [own, texts] of textsIn(paper))
    for (const text of texts) await book.prepare(text, own === '' ? undefined : own);
  for (const text of ownWords(studio, day)) await book.prepare(text);
  const sheets = paper.form === 'sheets' ? paper.sheets : pagesOf(paper, { studio, day }, book);
  const canvas = new Canvas({ title: plain(paper.title), author: studio, language, day });
  for (const { width, height, marks } of sheets) {
    canvas.page(width, height);
    if (paper.form === 'sheets' && sheets.length > 1) canvas.tags.newSection();
    drawMarks(marks, canvas, book);
  }
  return canvas.finish();
}

/** Fields that hold no words to be set. */
const NO_WORDS = new Set(['d', 'base64', 'points']);

/** Every text of the paper once, by the language that it is said to be in ('' where none is). */
function textsIn(paper: Paper): Map<string, Set<string>> {
  const found = new Map<string, Set<string>>();
  collect(paper, found, '');
  return found;
}

function collect(part: unknown, found: Map<string, Set<string>>, language: string): void {
  if (typeof part === 'string') {
    const texts = found.get(language) ?? new Set();
    found.set(language, texts.add(tidy(part)));
    return;
  }
  if (typeof part !== 'object' || part === null) return;
  const own = 'language' in part && 'mark' in part ? ((part.language as string | undefined) ?? '') : language;
  for (const [name, inner] of Object.entries(part)) if (!NO_WORDS.has(name)) collect(inner, found, own);
}
