/** Takes pictures in: what is no picture is refused, what is too large or holds more than a picture is made anew. */
import { randomUUID } from 'node:crypto';
import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import {
  LONGEST_SIDE,
  type Picture,
  type PictureType,
  pictureOf,
  pictureType,
} from '../contract/picture/picture.ts';
import type { PictureForPaper } from '../contract/plugin.ts';
import type { Files } from './store.ts';

export interface KeptPicture {
  readonly sha256: string;
  readonly type: PictureType;
  readonly bytes: number;
  readonly width: number;
  readonly height: number;
}

export class NotAPicture extends Error {
  override readonly name = 'NotAPicture';
}
export class PictureErased extends Error {
  override readonly name = 'PictureErased';
}

/** Longest side of the small ones, in pixels. */
const SMALL = 480;
/** A larger one is not unpacked at all. */
const MOST_PIXELS = 120_000_000;
/** Somewhat more than a device sends: another program may have made it. */
const LARGE = LONGEST_SIDE + 400;

/** Loaded only where there is a picture: it is a large library. */
const library = async () => (await import('sharp')).default;

export class Pictures {
  private turn: Promise<unknown> = Promise.resolve();

  /** @param small folder for small copies, which can be made again */
  constructor(
    readonly files: Files,
    private readonly small: string,
  ) {}

  /** @throws NotAPicture with a sentence that says why; PictureErased */
  async keep(sent: Uint8Array): Promise<KeptPicture> {
    const picture = await this.inTurn(() => cleaned(sent));
    const small = await this.inTurn(() => shrunk(picture.bytes));
    const sha256 = await this.files.keep(picture.bytes);
    if (this.files.standing(sha256) === 'erased')
      throw new PictureErased('This picture was erased with the person whose ware it showed.');
    await this.keepSmall(sha256, small);
    const { type, width, height, bytes } = picture;
    return { sha256, type, width, height, bytes: bytes.length };
  }

  /** The picture, or undefined when it is not kept. */
  async read(sha256: string): Promise<{ type: PictureType; bytes: Buffer } | undefined> {
    const bytes = await this.files.read(sha256);
    const type = bytes && pictureType(bytes);
    return bytes && type ? { type, bytes } : undefined;
  }

  /** As a paper can show it. */
  async forPaper(sha256: string): Promise<PictureForPaper | undefined> {
    const kept = await this.read(sha256);
    if (kept === undefined) return undefined;
    const sharp = await library();
    const { type, bytes } =
      kept.type === 'image/webp'
        ? {
            type: 'image/jpeg' as const,
            bytes: await sharp(kept.bytes).flatten({ background: '#fff' }).jpeg().toBuffer(),
          }
        : { type: kept.type, bytes: kept.bytes };
    return { type, base64: bytes.toString('base64') };
  }

  async readSmall(sha256: string): Promise<{ type: PictureType; bytes: Buffer } | undefined> {
    if (this.files.standing(sha256) !== 'kept') return undefined;
    const made = await readFile(this.smallPath(sha256)).catch(() => undefined);
    if (made !== undefined) return { type: 'image/webp', bytes: made };
    const whole = await this.files.read(sha256);
    if (whole === undefined) return undefined;
    const small = await this.inTurn(() => shrunk(whole));
    await this.keepSmall(sha256, small);
    return { type: 'image/webp', bytes: small };
  }

  /** @returns whether it was let go of: nobody had sent or named it since then */
  async letGo(sha256: string, since: Date): Promise<boolean> {
    if (!this.files.letGo(sha256, since)) return false;
    await rm(this.smallPath(sha256), { force: true });
    return true;
  }

  async erase(sha256: string): Promise<void> {
    await this.files.erase(sha256);
    await rm(this.smallPath(sha256), { force: true });
  }

  private smallPath = (sha256: string): string => join(this.small, sha256.slice(0, 2), sha256.slice(2));

  private async keepSmall(sha256: string, bytes: Buffer): Promise<void> {
    const path = this.smallPath(sha256);
    await mkdir(dirname(path), { recursive: true, mode: 0o700 });
    // Of its own, as two devices may send the same picture at once.
    const aside = `${path}.${randomUUID()}.new`;
    try {
      await writeFile(aside, bytes, { mode: 0o600 });
      await rename(aside, path);
    } catch (error) {
      await rm(aside, { force: true });
      throw error;
    }
  }

  /** One after the other: several large ones unpacked at once would take all the memory. */
  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.turn.then(work);
    this.turn = mine.catch(() => {});
    return mine;
  }
}

/** As it was sent where nothing but a picture of a usual size is in it; otherwise drawn anew. */
async function cleaned(sent: Uint8Array): Promise<Picture> {
  const picture = pictureOf(sent);
  if (picture === undefined)
    throw new NotAPicture(
      pictureType(sent) === undefined
        ? 'This file is not a picture, whatever its name says; JPEG, PNG and WebP can be kept.'
        : 'This picture is damaged or breaks off, so it was not kept. Take or send it again.',
    );
  if (picture.width * picture.height > MOST_PIXELS)
    throw new NotAPicture(
      `This picture has ${Math.round((picture.width * picture.height) / 1e6)} million points; up to ${MOST_PIXELS / 1e6} million can be taken in. Make it smaller first.`,
    );
  const asItIs = picture.bytes.length === sent.length && Math.max(picture.width, picture.height) <= LARGE;
  return asItIs ? picture : redrawn(sent);
}

async function redrawn(sent: Uint8Array): Promise<Picture> {
  const sharp = await library();
  const bytes = await unpacked(() =>
    sharp(sent, { limitInputPixels: MOST_PIXELS, failOn: 'truncated' })
      .autoOrient()
      .resize({ width: LONGEST_SIDE, height: LONGEST_SIDE, fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#fff' })
      .jpeg({ quality: 85 })
      .toBuffer(),
  );
  return pictureOf(bytes)!;
}

/** A small copy; and the proof that it can be unpacked. */
async function shrunk(bytes: Uint8Array): Promise<Buffer> {
  const sharp = await library();
  return unpacked(() =>
    sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'truncated' })
      .autoOrient()
      .resize({ width: SMALL, height: SMALL, fit: 'inside', withoutEnlargement: true })
      .webp({ quality: 75 })
      .toBuffer(),
  );
}

async function unpacked(work: () => Promise<Buffer>): Promise<Buffer> {
  try {
    return await work();
  } catch {
    throw new NotAPicture(
      'This picture is damaged or breaks off, so it was not kept. Take or send it again.',
    );
  }
}
