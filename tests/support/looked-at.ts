/** Looks at a PDF with MuPDF, a reader that shares no code with what made it. */
import * as mupdf from 'mupdf';

const POINTS = 72 / 25.4;

/** A part of a page as grey pixels, 0 black to 255 white. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint8ClampedArray;
  readonly perMm: number;
}

/** Of the structure that a screen reader follows. */
export interface Part {
  readonly as: string;
  readonly alt?: string;
  readonly parts: readonly Part[];
  /** How many stretches of the pages are this part's own. */
  readonly contents: number;
}

export interface LookedAt {
  readonly pages: number;
  /** In mm. */
  size(page: number): { width: number; height: number };
  text(page: number): string;
  /** The part of a page (in mm; all of it when not said) at so many dots per inch. */
  raster(page: number, dpi: number, part?: { x: number; y: number; width: number; height: number }): Raster;
  /** Whether the reader had to mend the file before it could read it. */
  readonly mended: boolean;
  /** Fonts by the name they have in the file, and whether the font itself is in it. */
  fonts(): { name: string; inside: boolean }[];
  /** Of the catalogue. */
  readonly printScaling: string;
  readonly title: string;
  readonly language: string;
  /** Whether the file says that its parts are tagged. */
  readonly marked: boolean;
  structure(): Part[];
  /** How many stretches of the pages are marked as part of the structure. */
  marks(): number;
}

export function lookAt(pdf: Uint8Array): LookedAt {
  const document = mupdf.Document.openDocument(pdf, 'application/pdf').asPDF()!;
  const bounds = (page: number) => {
    const [x0, y0, x1, y1] = document.loadPage(page).getBounds();
    return { width: (x1 - x0) / POINTS, height: (y1 - y0) / POINTS };
  };
  const catalogue = document.getTrailer().get('Root');
  return {
    pages: document.countPages(),
    size: bounds,
    // Word joiners stand for the dots and marks of a letter: they are not seen, and a search passes over them.
    text: (page) => document.loadPage(page).toStructuredText('').asText().replaceAll('\u2060', ''),
    raster: (page, dpi, part = { x: 0, y: 0, ...bounds(page) }) => {
      const perMm = dpi / 25.4;
      const [left, top] = [Math.round(part.x * perMm), Math.round(part.y * perMm)];
      const [right, bottom] = [
        Math.round((part.x + part.width) * perMm),
        Math.round((part.y + part.height) * perMm),
      ];
      const pixmap = new mupdf.Pixmap(mupdf.ColorSpace.DeviceGray, [left, top, right, bottom], false);
      pixmap.clear(255);
      const scale = dpi / 72;
      const device = new mupdf.DrawDevice([scale, 0, 0, scale, 0, 0], pixmap);
      document.loadPage(page).run(device, mupdf.Matrix.identity);
      device.close();
      const pixels = new Uint8ClampedArray(pixmap.getPixels());
      return { width: right - left, height: bottom - top, pixels, perMm };
    },
    mended: document.wasRepaired(),
    fonts: () => fontsOf(document),
    printScaling: catalogue.get('ViewerPreferences').get('PrintScaling').asName(),
    title: document.getMetaData('info:Title') ?? '',
    language: nothing(catalogue.get('Lang')) ? '' : catalogue.get('Lang').asString(),
    marked: !nothing(catalogue.get('MarkInfo')) && catalogue.get('MarkInfo').get('Marked').asBoolean(),
    structure: () => partsOf(catalogue.get('StructTreeRoot').get('K')),
    marks: () =>
      Array.from({ length: document.countPages() }, (_, page) =>
        markedOn(document.loadPage(page) as mupdf.PDFPage),
      ).reduce((sum, many) => sum + many, 0),
  };
}

const nothing = (object: mupdf.PDFObject): boolean => object.isNull();

function partsOf(kids: mupdf.PDFObject): Part[] {
  const each = kids.isArray()
    ? Array.from({ length: kids.length }, (_, at) => kids.get(at).resolve())
    : [kids.resolve()];
  return each
    .filter((kid) => kid.isDictionary() && !kid.get('S').isNull())
    .map((kid) => {
      const own = kid.get('K');
      const alt = kid.get('Alt');
      return {
        as: kid.get('S').asName(),
        ...(alt.isNull() ? {} : { alt: alt.asString() }),
        parts: own.isNull() ? [] : partsOf(own),
        contents: own.isNull() ? 0 : contentsOf(own),
      };
    });
}

/** Numbers of marked content, bare or with their page. */
function contentsOf(kids: mupdf.PDFObject): number {
  const each = kids.isArray() ? Array.from({ length: kids.length }, (_, at) => kids.get(at)) : [kids];
  return each.filter((kid) => kid.isNumber() || (kid.isDictionary() && !kid.get('MCID').isNull())).length;
}

function markedOn(page: mupdf.PDFPage): number {
  const contents = page.getObject().get('Contents');
  const streams = contents.isArray()
    ? Array.from({ length: contents.length }, (_, at) => contents.get(at))
    : [contents];
  const text = streams.map((stream) => stream.readStream().asString()).join('\n');
  return text.match(/\/MCID \d+/g)?.length ?? 0;
}

function fontsOf(document: mupdf.PDFDocument): { name: string; inside: boolean }[] {
  const found: { name: string; inside: boolean }[] = [];
  for (let at = 1; at < document.countObjects(); at++) {
    const object = document.newIndirect(at).resolve();
    if (!object.isDictionary() || object.get('Type').toString() !== '/FontDescriptor') continue;
    found.push({ name: object.get('FontName').asName(), inside: object.get('FontFile2').isStream() });
  }
  return found;
}

/** Dots darker than middle grey. */
export const ink = ({ pixels }: Raster): number =>
  pixels.reduce((sum, grey) => sum + (grey < 128 ? 1 : 0), 0);

/** The part with ink in it, in mm from the part's corner; undefined where there is none. */
export function inked({ width, height, pixels, perMm }: Raster) {
  let [left, top, right, bottom] = [width, height, -1, -1];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (pixels[y * width + x]! >= 128) continue;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
    }
  }
  if (right < 0) return undefined;
  return { left: left / perMm, top: top / perMm, right: (right + 1) / perMm, bottom: (bottom + 1) / perMm };
}
