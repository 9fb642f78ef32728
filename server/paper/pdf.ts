/** What is used of pdfkit beyond its published types: its objects, for fonts of our own making. */
import PDFDocument from 'pdfkit';

export interface Ref {
  readonly data: Record<string, unknown>;
  write(bytes: Uint8Array): void;
  end(bytes?: Uint8Array): void;
}

/** Of the structure that says what the parts of a paper are. */
export interface Element {
  add(child: Element | (() => void)): void;
}

type Retyped = 'ref' | 'page' | 'addContent' | 'openImage' | 'struct' | 'addStructure' | 'markContent';

export interface Pdf extends Omit<PDFKit.PDFDocument, Retyped> {
  struct(type: string, options?: { alt?: string; scope?: string }): Element;
  addStructure(element: Element): void;
  markContent(tag: string): void;
  ref(data: Record<string, unknown>): Ref;
  addContent(operators: string): void;
  readonly page: { readonly fonts: Record<string, Ref> };
  readonly _root: { readonly data: Record<string, unknown> };
  openImage(source: Uint8Array): PdfImage;
}

/** In pixels. */
export interface PdfImage {
  readonly width: number;
  readonly height: number;
}

export interface About {
  readonly title: string;
  readonly author: string;
  /** BCP 47. */
  readonly language: string;
  /** 'YYYY-MM-DD'; the file depends on nothing else of time. */
  readonly day: string;
}

/** Points in a mm. */
export const POINTS = 72 / 25.4;

export function newPdf({ title, author, language, day }: About): Pdf {
  const when = new Date(`${day}T12:00:00Z`);
  const pdf = new PDFDocument({
    font: null as unknown as string,
    autoFirstPage: false,
    pdfVersion: '1.7',
    lang: language,
    displayTitle: true,
    tagged: true,
    info: {
      Title: title,
      Author: author,
      Creator: 'Wareboard',
      Producer: 'Wareboard',
      CreationDate: when,
      ModDate: when,
    },
  }) as unknown as Pdf;
  // Nothing is to be made larger or smaller by the printing program, unless the user asks for it.
  (pdf._root.data.ViewerPreferences as Ref).data.PrintScaling = 'None';
  return pdf;
}

/** The finished file; nothing can be drawn any more. */
export function finish(pdf: Pdf): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const parts: Buffer[] = [];
    pdf.on('data', (part: Buffer) => parts.push(part));
    pdf.on('end', () => resolve(Buffer.concat(parts)));
    pdf.on('error', reject);
    pdf.end();
  });
}
