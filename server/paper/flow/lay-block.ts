/** Lays the text of a block in lines. */
import type { FontBook } from '../fonts/book.ts';
import type { Weight } from '../fonts/face.ts';
import { type Laid, layOut } from '../text/lay.ts';
import { LEADING } from './measures.ts';

/** @param width in mm; without it each paragraph is one line */
export function layBlock(text: string, book: FontBook, size: number, weight: Weight, width?: number): Laid {
  return layOut(
    text,
    book,
    { weight, direction: 'auto' },
    { size, leading: LEADING, spacing: 0, width, fit: 'wrap', least: size },
  );
}
