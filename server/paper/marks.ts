/** Draws the marks of a sheet. */
import type { Mark, Words } from '../contract/paper.ts';
import type { Canvas } from './canvas.ts';
import type { FontBook } from './fonts/book.ts';
import { qrCode } from './qr.ts';
import type { Tag } from './tags.ts';
import { type Laid, type Line, layOut } from './text/lay.ts';

/** Lines that were laid out already; `x` is the left edge of their box, `y` its top. */
export interface LaidMark {
  readonly mark: 'laid';
  readonly laid: Laid;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly align: 'start' | 'left' | 'middle' | 'right';
  readonly shade?: number;
  readonly tag?: Tag;
}

/** Marks of any kind that stand together. */
export interface GroupMark {
  readonly mark: 'group';
  readonly x?: number;
  readonly y?: number;
  readonly turn?: number;
  readonly scale?: number;
  readonly clip?: Extract<Mark, { mark: 'group' }>['clip'];
  readonly title?: string;
  /** Comes again on each page, and is read aloud on none. */
  readonly unread?: boolean;
  readonly marks: readonly Drawable[];
}

export type Drawable = Exclude<Mark, { mark: 'group' }> | LaidMark | GroupMark;

/** Of the line's height around the baseline, in ems: the look's own font reaches so far up and down. */
const UP = 0.95;
const DOWN = 0.3;

/** From the top of a line to its baseline. */
export const baseline = ({ step, size }: Pick<Laid, 'step' | 'size'>): number =>
  (step - (UP + DOWN) * size) / 2 + UP * size;

export function drawMarks(marks: readonly Drawable[], canvas: Canvas, book: FontBook): void {
  for (let at = 0; at < marks.length; ) {
    // Lines and shapes that follow each other are passed over together.
    let end = at;
    while (end < marks.length && isUnread(marks[end]!)) end++;
    const unread = marks.slice(at, end);
    if (unread.length > 0) canvas.tags.untagged(() => drawEach(unread, canvas, book));
    if (end < marks.length) drawRead(marks[end]!, canvas, book);
    at = end + 1;
  }
}

const drawEach = (marks: readonly Drawable[], canvas: Canvas, book: FontBook): void => {
  for (const mark of marks) drawMark(mark, canvas, book);
};

function isUnread(it: Drawable): boolean {
  if (it.mark === 'words') return plain(it.text).trim() === '';
  if (it.mark === 'picture') return it.title === undefined;
  if (it.mark === 'laid') return it.laid.lines.every(({ clusters }) => clusters.length === 0);
  if (it.mark === 'group') return 'unread' in it && it.unread === true;
  return it.mark !== 'qr';
}

function drawRead(it: Drawable, canvas: Canvas, book: FontBook): void {
  const tag = tagOf(it);
  const draw = () => drawMark(it, canvas, book);
  if (tag) canvas.tags.tagged(tag, draw);
  else draw();
}

/** Undefined for a group whose marks are read one by one. */
function tagOf(it: Drawable): Tag | undefined {
  switch (it.mark) {
    case 'words':
      return { as: it.heading ? `H${it.heading}` : 'P' };
    case 'laid':
      return it.tag ?? { as: 'P' };
    case 'qr':
      return { as: 'Figure', alt: it.text };
    case 'picture':
    case 'group':
      return it.title === undefined ? undefined : { as: 'Figure', alt: it.title };
    default:
      return undefined;
  }
}

function drawMark(it: Drawable, canvas: Canvas, book: FontBook): void {
  switch (it.mark) {
    case 'line':
      canvas.line(it.points, it.closed ?? false, it);
      break;
    case 'path':
      canvas.path(it.d, it);
      break;
    case 'box':
      canvas.box(it.x, it.y, it.width, it.height, it.radius ?? 0, it);
      break;
    case 'circle':
      canvas.circle(it.x, it.y, it.radius, it);
      break;
    case 'picture':
      canvas.picture(it);
      break;
    case 'qr': {
      const { size, boxes } = qrCode(it.text, it.level);
      canvas.placed(it, () => canvas.squares(boxes, it.size / size));
      break;
    }
    case 'words':
      drawWords(it, canvas, book);
      break;
    case 'laid':
      drawLaid(it, canvas);
      break;
    case 'group':
      canvas.placed(it, () => {
        if (it.clip) canvas.clip(it.clip);
        drawMarks(it.marks, canvas, book);
      });
      break;
  }
}

export function drawLaid({ laid, x, y, width, align, shade = 0 }: LaidMark, canvas: Canvas): void {
  canvas.text(laid, (line) => x + indent(line, width, align), y + baseline(laid), shade);
}

/** How far from the left edge of its box a line begins. */
function indent(line: Line, width: number, align: LaidMark['align']): number {
  const free = width - line.width;
  if (align === 'middle') return free / 2;
  if (align === 'right') return free;
  return align === 'start' && line.rightToLeft ? free : 0;
}

function drawWords(it: Words, canvas: Canvas, book: FontBook): void {
  const { x, y, width, height, align = 'start', vertical = 'top', shade = 0, turn = 0 } = it;
  const laid = layWords(it, book);
  const free = (height ?? 0) - laid.height;
  const top = { top: 0, middle: free / 2, bottom: free, baseline: -baseline(laid) }[vertical];
  // Without a box, x is where the line starts, its middle or its end.
  const left = (line: Line) => indent(line, width ?? 0, align);
  canvas.placed({ x, y, turn }, () => canvas.text(laid, left, top + baseline(laid), shade));
}

export function layWords(it: Words, book: FontBook): Laid {
  const { text, size, weight = 'regular', direction = 'auto', language, width, height } = it;
  const { leading = 1.3, spacing = 0, least = 1.4, fit = 'wrap' } = it;
  const measure = { size, leading, spacing, width, height, fit, least: Math.min(least, size) };
  return layOut(plain(text), book, { weight, direction, language }, measure);
}

/** Words as the host has filled them in. */
export function plain(text: unknown): string {
  if (Array.isArray(text)) return text.map(plain).join('');
  if (typeof text !== 'string') throw new Error('words were not filled in');
  return text;
}
