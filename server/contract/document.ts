/** A document that is kept: a PDF, by its bytes and not by its name. */

export const DOCUMENT_TYPE = 'application/pdf';
/** Largest file that is taken in, in bytes. */
export const LARGEST_DOCUMENT = 25 * 1024 * 1024;
/** How far from its ends a reader still looks for the head and the end of the file; common practice of readers, no source. */
const WITHIN = 1_024;

const latin = (bytes: Uint8Array): string => String.fromCharCode(...bytes);

/** Whether it begins as a PDF does (ISO 32000-2, 7.5.2); the server reads all of it before it keeps it. */
export const beginsAsPdf = (bytes: Uint8Array): boolean =>
  /%PDF-[12]\.\d/.test(latin(bytes.subarray(0, WITHIN)));

/** Whether it ends as one does (7.5.5), and does not break off. */
export const endsAsPdf = (bytes: Uint8Array): boolean => latin(bytes.subarray(-WITHIN)).includes('%%EOF');
