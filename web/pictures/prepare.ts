/** A picture as it comes from the camera, made smaller and cleaned on the device, with the name that its content gives it. */
import { LONGEST_SIDE, pictureOf } from '../../server/contract/picture/picture.ts';

export interface Prepared {
  readonly blob: Blob;
  readonly sha256: string;
  readonly type: string;
  readonly bytes: number;
  readonly width: number;
  readonly height: number;
}

export type Unprepared = 'not-readable' | 'too-large';

/** Canvases are tried one after the other: a phone may have no room for the first. */
const SIDES = [LONGEST_SIDE, LONGEST_SIDE / 2];
const QUALITY = 0.85;

/** Drawn anew, so that nothing of the file but the picture goes on: not where, not with what, no script. */
export async function prepare(file: Blob): Promise<Prepared | Unprepared> {
  const address = URL.createObjectURL(file);
  try {
    const image = new Image();
    image.src = address;
    try {
      await image.decode();
    } catch {
      return 'not-readable';
    }
    for (const side of SIDES) {
      const drawn = await draw(image, side);
      if (drawn) return await named(drawn);
    }
    return 'too-large';
  } finally {
    URL.revokeObjectURL(address);
  }
}

async function draw(image: HTMLImageElement, longest: number): Promise<Blob | null> {
  const { naturalWidth: width, naturalHeight: height } = image;
  const scale = Math.min(1, longest / Math.max(width, height, 1));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(width * scale));
  canvas.height = Math.max(1, Math.round(height * scale));
  try {
    const pen = canvas.getContext('2d');
    if (!pen) return null;
    // What lets light through is laid on paper.
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.imageSmoothingQuality = 'high';
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((done) => canvas.toBlob(done, 'image/jpeg', QUALITY));
  } finally {
    // Some browsers let go of a canvas' memory only so.
    canvas.width = 0;
    canvas.height = 0;
  }
}

/** The same cleaning as on the server, so that both give it the same name. */
async function named(drawn: Blob): Promise<Prepared | Unprepared> {
  const picture = pictureOf(new Uint8Array(await drawn.arrayBuffer()));
  if (!picture) return 'too-large';
  const { type, width, height, bytes } = picture;
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  const sha256 = Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return { blob: new Blob([bytes], { type }), sha256, type, bytes: bytes.length, width, height };
}
