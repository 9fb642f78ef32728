/** PNG (W3C recommendation, third edition): chunks that draw the picture are kept; texts, EXIF, times and profiles go. */
import { ascii, joined, startsWith, viewOf } from './bytes.ts';
import type { Picture } from './picture.ts';

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;
const KEPT = new Set(['IHDR', 'PLTE', 'tRNS', 'gAMA', 'cHRM', 'sRGB', 'IDAT', 'IEND']);

export const isPng = (bytes: Uint8Array): boolean => startsWith(bytes, ...SIGNATURE);

/** Undefined where it breaks off or does not begin as a PNG does. */
export function png(bytes: Uint8Array): Picture | undefined {
  const view = viewOf(bytes);
  const parts: Uint8Array[] = [bytes.subarray(0, SIGNATURE.length)];
  let at: number = SIGNATURE.length;
  if (bytes.length < at + 25 || ascii(bytes, at + 4, 4) !== 'IHDR') return undefined;
  const [width, height] = [view.getUint32(at + 8), view.getUint32(at + 12)];
  while (at + 12 <= bytes.length) {
    const end = at + 12 + view.getUint32(at);
    if (end > bytes.length) return undefined;
    const name = ascii(bytes, at + 4, 4);
    if (KEPT.has(name)) parts.push(bytes.subarray(at, end));
    at = end;
    if (name === 'IEND')
      return width > 0 && height > 0 ? { type: 'image/png', width, height, bytes: joined(parts) } : undefined;
  }
  return undefined;
}
