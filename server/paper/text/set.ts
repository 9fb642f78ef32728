/** Writes a laid line into the PDF: its glyphs, and the text they stand for where they cannot say it themselves. */

import { hex, type UsedFont, utf16 } from '../fonts/embed.ts';
import type { Glyph } from '../fonts/face.ts';
import type { Cluster } from './clusters.ts';
import type { Line } from './lay.ts';

export interface Setting {
  /** In mm; of the em. */
  readonly size: number;
  /** In mm, after each letter. */
  readonly spacing: number;
  /** Where the line begins at the left, and its baseline, in mm from the upper left corner. */
  readonly x: number;
  readonly y: number;
}

export type FontFor = (cluster: Cluster) => UsedFont;

const n = (value: number): string => String(Math.round(value * 1e4) / 1e4);

/** Operators of ISO 32000-1, 9.4, in a space where y runs down. */
export function setLine({ clusters }: Line, fontFor: FontFor, setting: Setting): string {
  const out: string[] = ['BT'];
  let { x } = setting;
  for (let at = 0; at < clusters.length; ) {
    const first = clusters[at]!;
    let end = at + 1;
    while (end < clusters.length && sameRun(first, clusters[end]!)) end++;
    const run = clusters.slice(at, end);
    x = setRun(run, fontFor(first), { ...setting, x }, out);
    at = end;
  }
  out.push('ET');
  return out.join('\n');
}

const sameRun = (one: Cluster, other: Cluster): boolean =>
  one.face === other.face &&
  one.weight === other.weight &&
  one.level === other.level &&
  one.unknown === other.unknown;

/** Operators for the glyphs of one font; returns where the next run begins. */
function setRun(
  run: readonly Cluster[],
  font: UsedFont,
  { size, spacing, x: start, y }: Setting,
  out: string[],
): number {
  const perUnit = size / font.face.upem;
  const pen = new GlyphPen(out);
  out.push(`/${font.name} ${n(size)} Tf`);
  let x = start;
  for (const cluster of run) {
    const [speaker, alone] = speakerOf(cluster);
    const whole = cluster.unknown || !alone;
    if (whole) pen.wrap(`/Span << /ActualText <feff${utf16(cluster.text)}> >> BDC`);
    for (const glyph of cluster.glyphs) {
      const code = font.codeFor(glyph.id, glyph === speaker ? cluster.text : SILENT);
      const width = font.face.advance(glyph.id, font.weight) * perUnit;
      pen.show(code, x + glyph.dx * perUnit, y - glyph.dy * perUnit, width);
      x += glyph.advance * perUnit;
    }
    if (whole) pen.wrap('EMC');
    x += spacing;
  }
  pen.flush();
  return x;
}

/**
 * The glyph that stands for the cluster's text, and whether the others are only its dots and marks. Where there are
 * several letters (a vowel sign moved before its consonant) it is the first, as readers expect it of a marked text.
 */
function speakerOf({ glyphs }: Cluster): [Glyph | undefined, alone: boolean] {
  const wide = glyphs.filter(({ advance }) => advance > 0);
  return wide.length === 1 ? [wide[0], true] : [glyphs[0], glyphs.length === 1];
}

/** What a glyph means that stands for nothing of its own: no letter, and no place to break a line. */
const SILENT = '\u2060';

/** Collects glyphs that follow each other by their own widths. */
class GlyphPen {
  private pending = '';
  private x = Number.NaN;
  private y = Number.NaN;

  constructor(private readonly out: string[]) {}

  show(code: number, x: number, y: number, width: number): void {
    const follows = Math.abs(x - this.x) <= 1e-5 && Math.abs(y - this.y) <= 1e-5;
    if (!follows) {
      this.flush();
      this.out.push(`1 0 0 -1 ${n(x)} ${n(y)} Tm`);
    }
    this.pending += hex(code);
    this.x = x + width;
    this.y = y;
  }

  wrap(operator: string): void {
    this.flush();
    this.out.push(operator);
  }

  flush(): void {
    if (this.pending !== '') this.out.push(`<${this.pending}> Tj`);
    this.pending = '';
  }
}
