/**
 * What a picture is, by its bytes and not by its name, and the same picture without anything that is not picture:
 * no place, no maker, no comments, nothing after its end. Pure, and the same on the device and on the server, so
 * that both reckon the same SHA-256: what is clean comes out as it went in.
 */
import { isJpeg, jpeg } from './jpeg.ts';
import { isPng, png } from './png.ts';
import { isWebp, webp } from './webp.ts';

export const PICTURE_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const;
export type PictureType = (typeof PICTURE_TYPES)[number];

export interface Picture {
  readonly type: PictureType;
  /** Pixels, as stored. */
  readonly width: number;
  readonly height: number;
  /** Without anything that is not picture. */
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** The longest side that a device sends, in pixels. */
export const LONGEST_SIDE = 2_000;
/** Largest file that is taken in, in bytes. */
export const LARGEST_PICTURE = 40 * 1024 * 1024;

/** Undefined for what is no picture, or one that breaks off. */
export function pictureOf(bytes: Uint8Array): Picture | undefined {
  if (isJpeg(bytes)) return jpeg(bytes);
  if (isPng(bytes)) return png(bytes);
  return isWebp(bytes) ? webp(bytes) : undefined;
}

/** The kind by the first bytes alone. */
export function pictureType(bytes: Uint8Array): PictureType | undefined {
  if (isJpeg(bytes)) return 'image/jpeg';
  if (isPng(bytes)) return 'image/png';
  return isWebp(bytes) ? 'image/webp' : undefined;
}
