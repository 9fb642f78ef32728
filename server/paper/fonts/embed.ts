/**
 * Puts the glyphs that were used into the PDF: composite fonts of type 2, and a table back to Unicode
 * (ISO 32000-1, 9.7.4 and 9.10.3). A glyph that stands for different texts (the skeleton of several Arabic
 * letters) has a code for each, so that every code can tell its text.
 */
import type { Pdf, Ref } from '../pdf.ts';
import type { Face, Weight } from './face.ts';
import { subset } from './subset.ts';

interface Code {
  readonly code: number;
  readonly glyph: number;
  readonly text: string;
}

export class UsedFont {
  /** By glyph and text; counted from 1, since 0 is the missing glyph. */
  private readonly codes = new Map<string, Code>();

  constructor(
    readonly face: Face,
    readonly weight: Weight,
    /** In the resources of a page. */
    readonly name: string,
    readonly ref: Ref,
  ) {}

  /** The code for a glyph that stands for `text`. */
  codeFor(glyph: number, text: string): number {
    const key = `${glyph} ${text}`;
    const known = this.codes.get(key) ?? { code: this.codes.size + 1, glyph, text };
    this.codes.set(key, known);
    return known.code;
  }

  embed(pdf: Pdf, number: number): void {
    const { face, weight } = this;
    const codes = [...this.codes.values()];
    const glyphs = [...new Set(codes.map(({ glyph }) => glyph))].sort((a, b) => a - b);
    const per1000 = (units: number) => Math.round((units * 1000) / face.upem);
    const { ascender, descender } = face.extents(weight);
    const name = `${subsetTag(number)}+${face.slice.family.name}${weight === 'bold' ? '-Bold' : ''}`;
    const program = pdf.ref({});
    program.end(subset(face.data, glyphs, face.axis(weight)));
    const descriptor = pdf.ref({
      Type: 'FontDescriptor',
      FontName: name,
      /** Symbolic: its codes are glyphs, and no letters. */
      Flags: 4,
      FontBBox: [-1000, per1000(descender), 3000, per1000(ascender)],
      ItalicAngle: 0,
      Ascent: per1000(ascender),
      Descent: per1000(descender),
      CapHeight: 700,
      StemV: weight === 'bold' ? 140 : 80,
      FontFile2: program,
    });
    descriptor.end();
    const toGlyphs = pdf.ref({});
    toGlyphs.end(Buffer.from([0, 0, ...codes.flatMap(({ glyph }) => [glyph >> 8, glyph & 0xff])]));
    const descendant = pdf.ref({
      Type: 'Font',
      Subtype: 'CIDFontType2',
      BaseFont: name,
      CIDSystemInfo: { Registry: textOf('Adobe'), Ordering: textOf('Identity'), Supplement: 0 },
      FontDescriptor: descriptor,
      DW: 1000,
      W: [1, codes.map(({ glyph }) => per1000(face.advance(glyph, weight)))],
      CIDToGIDMap: toGlyphs,
    });
    descendant.end();
    const toUnicode = pdf.ref({});
    toUnicode.end(Buffer.from(unicodeTable(codes)));
    Object.assign(this.ref.data, {
      Type: 'Font',
      Subtype: 'Type0',
      BaseFont: name,
      Encoding: 'Identity-H',
      DescendantFonts: [descendant],
      ToUnicode: toUnicode,
    });
    this.ref.end();
  }
}

/** pdfkit writes String objects as text and plain ones as names. */
const textOf = (text: string): unknown => new String(text);

/** Six letters that tell subsets of the same font apart. */
const subsetTag = (number: number): string =>
  [...number.toString(26).padStart(6, '0')]
    .map((digit) => String.fromCharCode(65 + Number.parseInt(digit, 26)))
    .join('');

export const hex = (number: number): string => number.toString(16).padStart(4, '0');

/** UTF-16BE in hexadecimal digits. */
export const utf16 = (text: string): string =>
  Array.from({ length: text.length }, (_, at) => hex(text.charCodeAt(at))).join('');

/** At most 100 lines in a block (Adobe Technical Note 5014). */
function unicodeTable(codes: readonly Code[]): string {
  const blocks: string[] = [];
  for (let at = 0; at < codes.length; at += 100) {
    const lines = codes.slice(at, at + 100).map(({ code, text }) => `<${hex(code)}> <${utf16(text)}>`);
    blocks.push(`${lines.length} beginbfchar\n${lines.join('\n')}\nendbfchar`);
  }
  return `/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <ffff>
endcodespacerange
${blocks.join('\n')}
endcmap
CMapName currentdict /CMap defineresource pop
end
end
`;
}
