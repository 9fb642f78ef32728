/** A slice of a font, loaded: which characters it has, and how it shapes a run of them. */
import {
  Blob,
  Buffer,
  ClusterLevel,
  Direction,
  Feature,
  Font,
  Face as HbFace,
  shape,
  Variation,
} from 'harfbuzzjs';
import type { Slice } from './slices.ts';

export type Weight = 'regular' | 'bold';
const AXIS: Readonly<Record<Weight, number>> = { regular: 400, bold: 700 };

/** A glyph where it stands, in units of the font; y upwards. */
export interface Glyph {
  readonly id: number;
  /** First UTF-16 unit in the shaped text that it stands for. */
  readonly cluster: number;
  readonly advance: number;
  readonly dx: number;
  readonly dy: number;
}

/** Figures that stand under each other in columns. */
const FEATURES = [Feature.fromString('tnum')!];

/** One for all: it is emptied before each use. */
const buffer = new Buffer();

export class Face {
  private readonly hb: HbFace;
  private readonly fonts = new Map<Weight, Font>();
  private readonly advances = { regular: new Map<number, number>(), bold: new Map<number, number>() };

  constructor(
    readonly slice: Slice,
    /** TrueType. */
    readonly data: Uint8Array,
  ) {
    this.hb = new HbFace(new Blob(data));
  }

  /** Units of the em. */
  get upem(): number {
    return this.hb.upem;
  }

  /** The weight that it is really set in. */
  weight(asked: Weight): Weight {
    return this.slice.family.variable ? asked : 'regular';
  }

  /** Place on the axis of weights; undefined for a font that has none. */
  axis(weight: Weight): number | undefined {
    return this.slice.family.variable ? AXIS[weight] : undefined;
  }

  has(codePoint: number): boolean {
    return (this.font('regular').nominalGlyph(codePoint) ?? 0) !== 0;
  }

  /** In units of the font, at that weight. */
  advance(glyph: number, weight: Weight): number {
    const known = this.advances[weight];
    let advance = known.get(glyph);
    if (advance === undefined) {
      advance = this.font(weight).glyphHAdvance(glyph);
      known.set(glyph, advance);
    }
    return advance;
  }

  /** Ascender and descender in units of the font. */
  extents(weight: Weight): { ascender: number; descender: number } {
    return this.font(weight).hExtents();
  }

  /** Glyphs from left to right. */
  shape(text: string, weight: Weight, rightToLeft: boolean, language?: string): Glyph[] {
    buffer.reset();
    buffer.addText(text);
    // As fine as may be, so that as many glyphs as possible stand for letters of their own.
    buffer.setClusterLevel(ClusterLevel.MONOTONE_CHARACTERS);
    buffer.guessSegmentProperties();
    buffer.setDirection(rightToLeft ? Direction.RTL : Direction.LTR);
    if (language !== undefined) buffer.setLanguage(language);
    shape(this.font(weight), buffer, FEATURES);
    const places = buffer.getGlyphPositions();
    return buffer.getGlyphInfos().map(({ codepoint: id, cluster }, at) => {
      const { xAdvance: advance, xOffset: dx, yOffset: dy } = places[at]!;
      return { id, cluster, advance, dx, dy };
    });
  }

  private font(asked: Weight): Font {
    const weight = this.weight(asked);
    const before = this.fonts.get(weight);
    if (before) return before;
    const font = new Font(this.hb);
    const place = this.axis(weight);
    if (place !== undefined) font.setVariations([new Variation('wght', place)]);
    this.fonts.set(weight, font);
    return font;
  }
}
