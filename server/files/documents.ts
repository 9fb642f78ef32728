/** Takes documents in: what is no PDF that can be read, page by page, is refused. */
import { beginsAsPdf, DOCUMENT_TYPE, endsAsPdf } from '../contract/document.ts';
import type { Files } from './store.ts';

export interface KeptDocument {
  readonly sha256: string;
  readonly type: typeof DOCUMENT_TYPE;
  readonly bytes: number;
  readonly pages: number;
}

export class NotADocument extends Error {
  override readonly name = 'NotADocument';
}

const MOST_PAGES = 2_000;
const DAMAGED = 'This PDF is damaged or breaks off, so it was not kept. Save it once more and send it again.';

export class Documents {
  constructor(readonly files: Files) {}

  /** As it was sent: what somebody drew is not changed. @throws NotADocument with a sentence that says why */
  async keep(sent: Uint8Array): Promise<KeptDocument> {
    const pages = await pagesOf(sent);
    const sha256 = await this.files.keep(sent);
    if (this.files.standing(sha256) === 'erased')
      throw new NotADocument('This file was erased with the person it was about, and is not taken in again.');
    return { sha256, type: DOCUMENT_TYPE, bytes: sent.length, pages };
  }

  /** Undefined when it is not kept, or is no document. */
  async read(sha256: string): Promise<Buffer | undefined> {
    const bytes = await this.files.read(sha256);
    return bytes && beginsAsPdf(bytes) ? bytes : undefined;
  }
}

async function pagesOf(sent: Uint8Array): Promise<number> {
  if (!beginsAsPdf(sent)) throw new NotADocument('This file is not a PDF, whatever its name says.');
  if (!endsAsPdf(sent)) throw new NotADocument(DAMAGED);
  // Loaded only where there is a document.
  const { EncryptedPDFError, PDFDocument } = await import('pdf-lib');
  const pages = await PDFDocument.load(sent, { updateMetadata: false }).then(
    (pdf) => pdf.getPageCount(),
    (cause: unknown) => {
      throw new NotADocument(
        cause instanceof EncryptedPDFError
          ? 'This PDF is locked, so it cannot be handed out with an order’s number on it. Save it once more without a password.'
          : DAMAGED,
      );
    },
  );
  if (pages === 0) throw new NotADocument('There is no page in this PDF.');
  if (pages > MOST_PAGES)
    throw new NotADocument(`This PDF has ${pages} pages; up to ${MOST_PAGES} can be taken in.`);
  return pages;
}
