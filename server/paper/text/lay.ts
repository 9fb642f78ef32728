/** Lays text out in lines: broken to a width, made smaller to fit, or cut with an ellipsis. */
import { type FontBook, languageOf } from '../fonts/book.ts';
import { breaksOf } from './breaks.ts';
import { type Cluster, inVisualOrder, isSpace, type Manner, type Shaped, shapeText } from './clusters.ts';

/** One line from left to right. */
export interface Line {
  readonly clusters: readonly Cluster[];
  /** In mm. */
  readonly width: number;
  /** Written from right to left as a whole. */
  readonly rightToLeft: boolean;
}

export interface Laid {
  readonly lines: readonly Line[];
  /** Of the em, in mm. */
  readonly size: number;
  /** From one line to the next, in mm. */
  readonly step: number;
  /** After each letter, in mm. */
  readonly spacing: number;
  /** Of the longest line. */
  readonly width: number;
  readonly height: number;
}

export interface Measure {
  readonly size: number;
  readonly leading: number;
  readonly spacing: number;
  readonly width?: number;
  readonly height?: number;
  readonly fit: 'wrap' | 'shrink' | 'cut';
  /** Smallest size for `shrink`. */
  readonly least: number;
}

const ELLIPSIS = '…';
/** Is never parted from the letter before it. */
const MARK = /^[\p{M}\p{Join_Control}]/u;
/** Sizes are tried in these steps. */
const SMALLER = 0.96;

export function layOut(text: string, book: FontBook, said: Manner, measure: Measure): Laid {
  // Of the whole text, so that a line without kana is still Japanese.
  const manner = { ...said, language: languageOf(text, said.language) };
  const paragraphs = text.split(/\r\n|[\n\r\u2028\u2029]/).map((each) => shapeText(each, book, manner));
  const { fit, width, height, size, least } = measure;
  if (fit === 'cut' && width !== undefined) {
    const lines = paragraphs.map((it) => cutTo(it, width, measure, book, manner));
    return laid(lines, size, measure);
  }
  let tried = wrapped(paragraphs, size, measure);
  if (fit !== 'shrink') return tried;
  const fits = (it: Laid) =>
    (width === undefined || it.width <= width + 1e-6) && (height === undefined || it.height <= height + 1e-6);
  const whole = (it: Laid, at: number) => fits(it) && !brokenInside(paragraphs, at, measure);
  for (let smaller = size; smaller > least && !whole(tried, tried.size); ) {
    smaller = Math.max(least, smaller * SMALLER);
    tried = wrapped(paragraphs, smaller, measure);
  }
  return fits(tried) ? tried : cutOff(tried, paragraphs, book, manner, measure);
}

/** Whether a word is too long for the line at this size. */
function brokenInside(paragraphs: readonly Shaped[], size: number, { width, spacing }: Measure): boolean {
  if (width === undefined) return false;
  return paragraphs.some((paragraph) => longestWord(paragraph, size, spacing) > width + 1e-6);
}

export function longestWord({ text, clusters }: Shaped, size: number, spacing: number): number {
  const breaks = breaksOf(text);
  let longest = 0;
  let word = 0;
  for (const cluster of clusters) {
    if (breaks.has(cluster.at)) word = 0;
    if (!isSpace(cluster)) word += cluster.width * size + spacing;
    longest = Math.max(longest, word);
  }
  return longest;
}

function wrapped(paragraphs: readonly Shaped[], size: number, measure: Measure): Laid {
  const lines = paragraphs.flatMap((paragraph) => {
    const broken = brokenInto(paragraph, size, measure);
    return broken.map((line) => lineOf(line, paragraph, size, measure.spacing));
  });
  return laid(lines, size, measure);
}

function laid(lines: readonly Line[], size: number, { leading, spacing }: Measure): Laid {
  const step = size * leading;
  const width = Math.max(0, ...lines.map((line) => line.width));
  return { lines, size, step, spacing, width, height: step * lines.length };
}

/** Greedy: as much on each line as goes on it. Spaces at its end may stand over. */
function brokenInto({ text, clusters }: Shaped, size: number, { width, spacing }: Measure): Cluster[][] {
  if (width === undefined) return [[...clusters]];
  const breaks = breaksOf(text);
  const lines: Cluster[][] = [];
  let line: Cluster[] = [];
  let used = 0;
  let lastBreak = 0;
  for (const cluster of clusters) {
    if (line.length > 0 && breaks.has(cluster.at)) lastBreak = line.length;
    const own = cluster.width * size + spacing;
    if (line.length > 0 && !isSpace(cluster) && used + own > width + 1e-6) {
      if (lastBreak === 0 && MARK.test(cluster.text)) {
        line.push(cluster);
        continue;
      }
      const cut = lastBreak > 0 ? lastBreak : line.length;
      lines.push(line.slice(0, cut));
      line = line.slice(cut);
      used = line.reduce((sum, it) => sum + it.width * size + spacing, 0);
      lastBreak = 0;
    }
    line.push(cluster);
    used += own;
  }
  lines.push(line);
  return lines;
}

function lineOf(line: readonly Cluster[], { level }: Shaped, size: number, spacing: number): Line {
  let end = line.length;
  while (end > 0 && isSpace(line[end - 1]!)) end--;
  const shown = line.slice(0, end);
  const width = shown.reduce((sum, it) => sum + it.width * size + spacing, 0) - (end > 0 ? spacing : 0);
  return { clusters: inVisualOrder(shown, level), width, rightToLeft: level % 2 === 1 };
}

function cutTo(
  shaped: Shaped,
  width: number,
  { size, spacing }: Measure,
  book: FontBook,
  manner: Manner,
): Line {
  const whole = lineOf(shaped.clusters, shaped, size, spacing);
  if (whole.width <= width + 1e-6) return whole;
  const dots = shapeText(ELLIPSIS, book, { ...manner, direction: 'ltr' }).clusters.map((it) => ({
    ...it,
    level: shaped.level,
  }));
  const room = width - dots.reduce((sum, it) => sum + it.width * size + spacing, 0);
  const kept: Cluster[] = [];
  let used = 0;
  for (const cluster of shaped.clusters) {
    used += cluster.width * size + spacing;
    if (used > room) break;
    kept.push(cluster);
  }
  while (kept.length > 0 && isSpace(kept.at(-1)!)) kept.pop();
  return lineOf([...kept, ...dots], shaped, size, spacing);
}

/** What does not fit even at the smallest size: the lines that do, the last with an ellipsis. */
function cutOff(
  { lines, size, step }: Laid,
  paragraphs: readonly Shaped[],
  book: FontBook,
  manner: Manner,
  measure: Measure,
): Laid {
  const { width = Number.POSITIVE_INFINITY, height } = measure;
  const room = height === undefined ? lines.length : Math.max(1, Math.floor(height / step + 1e-6));
  if (lines.length <= room) return laid(lines, size, measure);
  const rest = paragraphs.flatMap((paragraph) =>
    brokenInto(paragraph, size, measure).map((line) => ({ paragraph, line })),
  );
  const { paragraph, line } = rest[room - 1]!;
  const last = {
    ...paragraph,
    clusters: [...line, ...(rest[room]!.paragraph === paragraph ? rest[room]!.line : [])],
  };
  const short = { ...measure, size };
  const whole = rest[room]!.paragraph === paragraph;
  const end = whole
    ? cutTo(last, width, short, book, manner)
    : cutTo(withDots(last), width, short, book, manner);
  return laid([...lines.slice(0, room - 1), end], size, measure);
}

/** More lines follow, so that it must be seen that something is missing: the line is taken as too long. */
function withDots(shaped: Shaped): Shaped {
  const first = shaped.clusters[0];
  if (first === undefined) return shaped;
  return { ...shaped, clusters: [...shaped.clusters, { ...first, width: Number.MAX_SAFE_INTEGER }] };
}
