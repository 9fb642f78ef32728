/** WebP (RFC 9649): the picture's own chunks are kept; EXIF, XMP, profiles and unknown chunks go. Moving ones are not taken. */
import { ascii, joined, viewOf } from './bytes.ts';
import type { Picture } from './picture.ts';

/** Of the flags in VP8X only the one for transparency stays. */
const ALPHA = 0x10;
const KEPT = new Set(['VP8 ', 'VP8L', 'VP8X', 'ALPH']);

export const isWebp = (bytes: Uint8Array): boolean =>
  bytes.length > 20 && ascii(bytes, 0, 4) === 'RIFF' && ascii(bytes, 8, 4) === 'WEBP';

/** Undefined where it breaks off, moves, or has no picture in it. */
export function webp(bytes: Uint8Array): Picture | undefined {
  const view = viewOf(bytes);
  const whole = 8 + view.getUint32(4, true);
  if (whole > bytes.length) return undefined;
  const chunks: Uint8Array[] = [];
  let size: { width: number; height: number } | undefined;
  for (let at = 12; at + 8 <= whole; ) {
    const name = ascii(bytes, at, 4);
    const length = view.getUint32(at + 4, true);
    const end = at + 8 + length + (length % 2);
    if (end > whole || name === 'ANIM' || name === 'ANMF') return undefined;
    if (KEPT.has(name)) {
      const chunk = bytes.slice(at, end);
      if (name === 'VP8X') chunk[8] = chunk[8]! & ALPHA;
      if (name === 'VP8 ' || name === 'VP8L') size = sizeOf(name, chunk);
      chunks.push(chunk);
    }
    at = end;
  }
  if (size === undefined) return undefined;
  const head = bytes.slice(0, 12);
  viewOf(head).setUint32(4, 4 + chunks.reduce((sum, chunk) => sum + chunk.length, 0), true);
  return { type: 'image/webp', ...size, bytes: joined([head, ...chunks]) };
}

function sizeOf(name: string, chunk: Uint8Array): { width: number; height: number } | undefined {
  if (chunk.length < 18) return undefined;
  const view = viewOf(chunk);
  if (name === 'VP8 ') {
    // Frame tag of three bytes, start code of three, then fourteen bits each (RFC 6386, 9.1).
    if (view.getUint8(11) !== 0x9d || view.getUint8(12) !== 0x01 || view.getUint8(13) !== 0x2a)
      return undefined;
    return { width: view.getUint16(14, true) & 0x3fff, height: view.getUint16(16, true) & 0x3fff };
  }
  if (view.getUint8(8) !== 0x2f) return undefined;
  const bits = view.getUint32(9, true);
  return { width: (bits & 0x3fff) + 1, height: ((bits >> 14) & 0x3fff) + 1 };
}
