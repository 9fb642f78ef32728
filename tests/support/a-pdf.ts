/** A PDF of one page, A5, written by hand: what somebody may give an item to be handed out. */
import { createHash } from 'node:crypto';

/** @param turn how far the page is turned when it is looked at */
export function aPdf(text = 'House Lantern', { turn = 0 } = {}): Uint8Array<ArrayBuffer> {
  const content = `BT /F1 18 Tf 40 500 Td (${text}) Tj ET`;
  const objects = [
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 420 595] /Rotate ${turn} /Resources << /Font << /F1 4 0 R >> >> /Contents 5 0 R >>`,
    '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>',
    `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
  ];
  let body = '%PDF-1.4\n';
  const places = objects.map((object, at) => {
    const place = body.length;
    body += `${at + 1} 0 obj\n${object}\nendobj\n`;
    return `${String(place).padStart(10, '0')} 00000 n \n`;
  });
  const start = body.length;
  body += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${places.join('')}`;
  body += `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\nstartxref\n${start}\n%%EOF\n`;
  return new TextEncoder().encode(body);
}

export const A_PDF_SHA256 = createHash('sha256').update(aPdf()).digest('hex');
