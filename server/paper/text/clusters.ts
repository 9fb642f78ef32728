/** Turns a line of text into clusters: the smallest parts that keep together, shaped, with their direction. */
import bidiFactory from 'bidi-js';
import type { FontBook } from '../fonts/book.ts';
import type { Face, Glyph, Weight } from '../fonts/face.ts';

const bidi = bidiFactory();

export interface Cluster {
  readonly face: Face;
  readonly weight: Weight;
  /** Its part of the text. */
  readonly text: string;
  /** Where it begins in the text, in UTF-16 units. */
  readonly at: number;
  /** From left to right. */
  readonly glyphs: readonly Glyph[];
  /** In ems. */
  readonly width: number;
  /** Embedding level (UAX 9): odd runs from right to left. */
  readonly level: number;
  /** What is drawn is not the text itself: no font has the letter. */
  readonly unknown: boolean;
}

export interface Manner {
  readonly weight: Weight;
  readonly direction: 'auto' | 'ltr' | 'rtl';
  readonly language?: string;
}

export interface Shaped {
  readonly text: string;
  readonly clusters: readonly Cluster[];
  /** Level of the paragraph: 0 from left to right, 1 from right to left. */
  readonly level: number;
}

/** Tabs and other controls have no shape of their own; marks of direction are kept, and work. */
export const tidy = (text: string): string => text.normalize('NFC').replace(/\p{Cc}/gu, ' ');

/** The same words come again and again on a paper, and are measured before they are set. */
const before = new WeakMap<FontBook, Map<string, Shaped>>();

/** Shapes one paragraph without line breaks in it. */
export function shapeText(raw: string, book: FontBook, manner: Manner): Shaped {
  const known = before.get(book) ?? new Map<string, Shaped>();
  before.set(book, known);
  const key = `${manner.weight} ${manner.direction} ${manner.language} ${raw}`;
  const shaped = known.get(key) ?? shapeNew(tidy(raw), book, manner);
  known.set(key, shaped);
  return shaped;
}

function shapeNew(text: string, book: FontBook, manner: Manner): Shaped {
  const { levels, paragraphs } = levelsOf(text, manner.direction);
  const clusters: Cluster[] = [];
  let at = 0;
  for (const { face, text: part, drawn } of book.pieces(text, manner.language)) {
    const end = at + part.length;
    for (let from = at; from < end; ) {
      let to = from + 1;
      while (to < end && levels[to] === levels[from]) to++;
      const whole = drawn === part;
      const run = whole ? text.slice(from, to) : drawn;
      const shaped = clustersOf(face, run, levels[from] ?? 0, manner);
      if (whole) clusters.push(...shaped.map((it) => ({ ...it, at: from + it.at })));
      else clusters.push({ ...shaped[0]!, text: text.slice(from, to), at: from, unknown: true });
      from = to;
    }
    at = end;
  }
  return { text, clusters, level: paragraphs[0]?.level ?? 0 };
}

/** Letters, marks and numbers that run from right to left, and what makes others do so. */
const MAY_TURN =
  /[\u0590-\u08ff\u200f\u202a-\u202e\u2066-\u2069\ufb1d-\ufdff\ufe70-\ufeff\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

function levelsOf(text: string, direction: Manner['direction']) {
  if (direction !== 'rtl' && !MAY_TURN.test(text))
    return { levels: new Uint8Array(text.length), paragraphs: [{ level: 0 }] };
  return bidi.getEmbeddingLevels(text, direction === 'auto' ? undefined : direction);
}

/** In the order of the text. */
function clustersOf(face: Face, run: string, level: number, { weight: asked, language }: Manner): Cluster[] {
  const weight = face.weight(asked);
  const glyphs = face.shape(run, weight, level % 2 === 1, language);
  const byStart = new Map<number, Glyph[]>();
  for (const glyph of glyphs) {
    const those = byStart.get(glyph.cluster);
    if (those) those.push(glyph);
    else byStart.set(glyph.cluster, [glyph]);
  }
  const starts = [...byStart.keys()].sort((a, b) => a - b);
  return starts.map((start, n) => {
    const own = byStart.get(start)!;
    const width = own.reduce((sum, { advance }) => sum + advance, 0) / face.upem;
    const text = run.slice(start, starts[n + 1] ?? run.length);
    return { face, weight, text, at: start, glyphs: own, width, level, unknown: false };
  });
}

/** The order in which the clusters of one line stand from left to right (UAX 9, rules L1 and L2). */
export function inVisualOrder(line: readonly Cluster[], paragraph: number): Cluster[] {
  const levels = line.map(({ level }) => level);
  for (let at = line.length - 1; at >= 0 && isSpace(line[at]!); at--) levels[at] = paragraph;
  const order = line.map((_, at) => at);
  const highest = Math.max(0, ...levels);
  for (let level = highest; level > 0; level--) {
    for (let from = 0; from < order.length; from++) {
      if (levels[order[from]!]! < level) continue;
      let to = from;
      while (to + 1 < order.length && levels[order[to + 1]!]! >= level) to++;
      order.splice(from, to - from + 1, ...order.slice(from, to + 1).reverse());
      from = to;
    }
  }
  return order.map((at) => line[at]!);
}

export const isSpace = ({ text }: Cluster): boolean => /^[\s\u200b]+$/.test(text);
