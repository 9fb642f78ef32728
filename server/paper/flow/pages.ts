/** Puts the blocks of a document on pages. */
import type { FontBook } from '../fonts/book.ts';
import { type Drawable, plain } from '../marks.ts';
import { stripsOf } from './blocks.ts';
import { footMarks } from './foot.ts';
import { type FlowingPaper, type Measures, measuresOf, type Strip } from './measures.ts';

export interface Page {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Drawable[];
}

export function pagesOf(
  paper: FlowingPaper,
  { studio, day }: { readonly studio: string; readonly day: string },
  book: FontBook,
): Page[] {
  const measures = measuresOf(paper);
  const strips = paper.blocks.flatMap((block) => stripsOf(block, measures, book));
  const pages = filled(strips, measures);
  const words = paper.foot === undefined ? plain(paper.title) : plain(paper.foot);
  return pages.map((marks, at) => ({
    width: measures.width,
    height: measures.height,
    marks: [
      ...marks,
      {
        mark: 'group',
        unread: true,
        marks: footMarks({ studio, day, words, page: at + 1, of: pages.length }, measures),
      },
    ],
  }));
}

function filled(strips: readonly Strip[], { left, top, room }: Measures): Drawable[][] {
  const pages: Drawable[][] = [[]];
  let y = 0;
  const place = (strip: Strip, gap: number, unread = false) => {
    pages.at(-1)!.push({ mark: 'group', x: left, y: top + y + gap, marks: strip.marks, unread });
    y += gap + strip.height;
  };
  strips.forEach((strip, at) => {
    const full = y > 0 && y + strip.before + heightWithNext(strips, at) > room + 1e-6;
    if (full || (strip.newPage && y > 0)) {
      pages.push([]);
      y = 0;
      if (strip.head) place(strip.head, 0, true);
    }
    place(strip, y === 0 ? 0 : strip.before);
  });
  return pages;
}

/** Of the strip and those that it must not be parted from. */
function heightWithNext(strips: readonly Strip[], at: number): number {
  let height = strips[at]!.height;
  for (let next = at; strips[next]!.withNext && strips[next + 1] !== undefined; next++)
    height += strips[next + 1]!.before + strips[next + 1]!.height;
  return height;
}
