/** The bytes of a file that comes in, and the text they stand for. */
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';

/** A path, the bytes, or a stream of them (an upload). */
export type Source = string | Uint8Array | AsyncIterable<Uint8Array>;

/** A file that cannot be read at all: nothing of it is recorded. `message` is a sentence for the potter. */
export class Unreadable extends Error {
  override readonly name = 'Unreadable';
}

const MEGABYTE = 1_000_000;
export const MOST_BYTES = 100 * MEGABYTE;

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

export interface Text {
  readonly encoding: Encoding;
  /** The text from its beginning, in pieces, without the byte order mark. */
  chunks(): AsyncIterable<string>;
}

/** Looks through all the bytes once to tell their encoding; `chunks` goes through them again. */
export async function openText(source: Source): Promise<Text> {
  const bytes = await rereadable(source);
  const encoding = await encodingOf(bytes());
  return { encoding, chunks: () => decoded(bytes(), encoding) };
}

async function rereadable(source: Source): Promise<() => AsyncIterable<Uint8Array>> {
  if (typeof source === 'string') {
    const { size } = await stat(source).catch((error: unknown) => {
      throw new Unreadable(`The file ${source} cannot be opened: ${(error as Error).message}.`);
    });
    if (size > MOST_BYTES) throw tooLarge(size);
    return () => createReadStream(source, { highWaterMark: 1 << 18 });
  }
  const parts: Uint8Array[] = [];
  let size = 0;
  for await (const part of source instanceof Uint8Array ? pieces(source) : source) {
    size += part.length;
    if (size > MOST_BYTES) throw tooLarge();
    parts.push(part);
  }
  return () =>
    (async function* () {
      yield* parts;
    })();
}

function* pieces(bytes: Uint8Array): Generator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += 1 << 18) yield bytes.subarray(at, at + (1 << 18));
}

const tooLarge = (size?: number): Unreadable =>
  new Unreadable(
    `This file is ${size === undefined ? 'larger than 100 MB' : `${Math.ceil(size / MEGABYTE)} MB`}; ` +
      'up to 100 MB can be read at once. Split it, by year for instance, with the headings at the top of each part.',
  );

/**
 * A byte order mark decides; without one, bytes that are valid UTF-8 are UTF-8, and what is not
 * is taken for Windows-1252, which Latin-1 text reads the same in (Encoding Standard of the WHATWG).
 */
async function encodingOf(bytes: AsyncIterable<Uint8Array>): Promise<Encoding> {
  let first = true;
  let accents = false;
  const strict = new TextDecoder('utf-8', { fatal: true });
  for await (const part of bytes) {
    if (first && part.length > 0) {
      first = false;
      const known = marked(part);
      if (known !== undefined) return known;
      refuseOtherKinds(part);
    }
    try {
      const text = strict.decode(part, { stream: true });
      accents ||= /[\u0080-\uffff]/.test(text);
    } catch {
      return 'windows-1252';
    }
  }
  if (first) throw new Unreadable('This file is empty.');
  try {
    strict.decode();
    return 'utf-8';
  } catch {
    /* Only the very end does not fit: a UTF-8 file cut within a letter, if it has other such letters. */
    return accents ? 'utf-8' : 'windows-1252';
  }
}

function marked(start: Uint8Array): Encoding | undefined {
  const [a, b, c, d] = start;
  if (a === 0xef && b === 0xbb && c === 0xbf) return 'utf-8';
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  /* Headings are plain letters: a zero beside each of the first two shows UTF-16 without a mark. */
  if (a !== 0 && b === 0 && c !== 0 && d === 0) return 'utf-16le';
  if (a === 0 && b !== 0 && c === 0 && d !== 0) return 'utf-16be';
  return undefined;
}

function refuseOtherKinds(start: Uint8Array): void {
  const signature = String.fromCharCode(...start.subarray(0, 4));
  if (signature === 'PK\x03\x04' || signature === '\xd0\xcf\x11\xe0') {
    throw new Unreadable('This is a spreadsheet itself, not a CSV file. Save it as CSV (UTF-8) first.');
  }
  if (signature === '%PDF') throw new Unreadable('This is a PDF, not a CSV file.');
}

async function* decoded(bytes: AsyncIterable<Uint8Array>, encoding: Encoding): AsyncGenerator<string> {
  const decoder = new TextDecoder(encoding);
  for await (const part of bytes) yield decoder.decode(part, { stream: true });
  yield decoder.decode();
}
