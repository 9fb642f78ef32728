/** Writes one line at the foot of every page of a PDF that is there already. */
import type { PDFDocument, PDFEmbeddedPage, PDFPage } from 'pdf-lib';
import { LONGEST_MM, type Paper } from '../contract/paper.ts';
import { drawPaper, type Printing } from './draw.ts';
import { POINTS } from './pdf.ts';

/** From the edge, and height of the em; mm. */
const EDGE = 6;
const SIZE = 2.6;
/** Smaller pages are left bare: nothing could be read on them. */
const LEAST_MM = 30;

interface Seen {
  /** As the page is looked at, in mm. */
  readonly width: number;
  readonly height: number;
}

/**
 * The line is drawn as any paper is, in whatever script, and laid over the page as it is looked at.
 * @param pdf one that `Documents` has kept
 */
export async function stamped(pdf: Uint8Array, line: string, printing: Printing): Promise<Uint8Array> {
  const { degrees, PDFDocument, PrintScaling } = await import('pdf-lib');
  const document = await PDFDocument.load(pdf, { updateMetadata: false });
  // As with our own: nothing is to be made larger or smaller by the printing program.
  document.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None);
  const stamps = new Map<string, PDFEmbeddedPage>();
  for (const page of document.getPages()) {
    const size = seenSize(page);
    if (Math.min(size.width, size.height) < LEAST_MM || Math.max(size.width, size.height) > LONGEST_MM)
      continue;
    const name = `${size.width} ${size.height}`;
    const stamp = stamps.get(name) ?? (await stampFor(document, size, line, printing));
    stamps.set(name, stamp);
    const { x, y, turn } = cornerOf(page);
    page.drawPage(stamp, { x, y, rotate: degrees(turn) });
  }
  return document.save();
}

const turnOf = (page: PDFPage): number => ((page.getRotation().angle % 360) + 360) % 360;

function seenSize(page: PDFPage): Seen {
  const { width, height } = page.getCropBox();
  const [across, down] = turnOf(page) % 180 === 0 ? [width, height] : [height, width];
  return { width: across / POINTS, height: down / POINTS };
}

/** Where the lower left corner lies of what is seen, and how far it is turned against the page's own axes. */
function cornerOf(page: PDFPage): { x: number; y: number; turn: number } {
  const { x, y, width, height } = page.getCropBox();
  const turn = turnOf(page);
  return {
    x: turn === 90 || turn === 180 ? x + width : x,
    y: turn === 180 || turn === 270 ? y + height : y,
    turn,
  };
}

async function stampFor(
  document: PDFDocument,
  { width, height }: Seen,
  line: string,
  printing: Printing,
): Promise<PDFEmbeddedPage> {
  const paper: Paper = {
    form: 'sheets',
    title: line,
    sheets: [
      {
        width,
        height,
        marks: [
          {
            mark: 'words',
            text: line,
            x: EDGE,
            y: height - EDGE - SIZE,
            width: width - 2 * EDGE,
            height: SIZE * 1.5,
            size: SIZE,
            fit: 'shrink',
            align: 'left',
          },
        ],
      },
    ],
  };
  const [stamp] = await document.embedPdf(await drawPaper(paper, printing));
  return stamp!;
}
