/**
 * JPEG (ITU-T T.81, annex B): segments that draw the picture are kept, all else goes: EXIF with its place and
 * maker, XMP, comments, small previews, and whatever stands after the end.
 */
import { ascii, joined, startsWith, viewOf } from './bytes.ts';
import type { Picture } from './picture.ts';

const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
/** DHT, DQT, DRI, and DAC: tables that scans are decoded with. */
const TABLES = new Set([0xc4, 0xdb, 0xdd, 0xcc]);
const APP0 = 0xe0;
const APP14 = 0xee;
const JFIF = 16;

const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);

export const isJpeg = (bytes: Uint8Array): boolean => startsWith(bytes, 0xff, SOI, 0xff);

/** Undefined where it breaks off or is no JPEG after all. */
export function jpeg(bytes: Uint8Array): Picture | undefined {
  const view = viewOf(bytes);
  const parts: Uint8Array[] = [bytes.subarray(0, 2)];
  let size: { width: number; height: number } | undefined;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1]!;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === EOI) return size && ended(parts, size);
    const end = at + 2 + view.getUint16(at + 2);
    if (end > bytes.length || end < at + 4) return undefined;
    const segment = bytes.subarray(at, end);
    if (isFrame(marker)) {
      if (segment.length < 9) return undefined;
      size = { height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    }
    if (isFrame(marker) || TABLES.has(marker) || marker === SOS) parts.push(segment);
    if (marker === APP14 && ascii(segment, 4, 5) === 'Adobe') parts.push(segment);
    if (marker === APP0 && ascii(segment, 4, 4) === 'JFIF') parts.push(withoutPreview(segment));
    at = end;
    if (marker === SOS) {
      const over = endOfScan(bytes, at);
      parts.push(bytes.subarray(at, over));
      at = over;
    }
  }
  return size && at + 2 <= bytes.length && bytes[at] === 0xff && bytes[at + 1] === EOI
    ? ended(parts, size)
    : undefined;
}

function ended(parts: readonly Uint8Array[], size: { width: number; height: number }): Picture | undefined {
  if (size.width === 0 || size.height === 0) return undefined;
  return { type: 'image/jpeg', ...size, bytes: joined([...parts, Uint8Array.of(0xff, EOI)]) };
}

/** The JFIF header with the preview's width and height as none. */
function withoutPreview(segment: Uint8Array): Uint8Array {
  if (segment.length < JFIF + 2) return new Uint8Array();
  const plain = segment.slice(0, JFIF + 2);
  plain.set([0, JFIF], 2);
  plain.set([0, 0], JFIF);
  return plain;
}

/** Coded data goes on to a marker that is neither a stuffed zero nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (
    let at = bytes.indexOf(0xff, from);
    at >= 0 && at + 1 < bytes.length;
    at = bytes.indexOf(0xff, at + 1)
  ) {
    const next = bytes[at + 1]!;
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return bytes.length;
}
