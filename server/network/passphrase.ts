/**
 * The studio's passphrase, kept only as its scrypt (RFC 7914): 128 MB and some tenths of a second for each
 * guess, as OWASP's Password Storage Cheat Sheet recommends (N = 2^17, r = 8, p = 1).
 */
import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import { join } from 'node:path';
import { z } from 'zod';
import { readPrivate, writePrivate } from './private-file.ts';

/** Shorter ones are refused; from `ADVISED` on (NIST SP 800-63B) nothing more is said. */
export const SHORTEST = 8;
export const ADVISED = 15;
export const LONGEST = 500;

export interface Cost {
  readonly N: number;
  readonly r: number;
  readonly p: number;
}
export const COST: Cost = { N: 2 ** 17, r: 8, p: 1 };

const kept = z.object({
  kind: z.literal('scrypt'),
  N: z.number().int(),
  r: z.number().int(),
  p: z.number().int(),
  salt: z.string(),
  hash: z.string(),
});

/** Typed on another keyboard it is the same: signs that look alike are folded, blanks at the ends are not part of it. */
const folded = (passphrase: string): string => passphrase.normalize('NFKC').trim();

export class BadPassphrase extends Error {
  override readonly name = 'BadPassphrase';
}

export class Passphrase {
  private readonly path: string;
  private turn: Promise<unknown> = Promise.resolve();

  /** @param folder `network` in the data folder */
  constructor(
    folder: string,
    private readonly cost: Cost = COST,
  ) {
    this.path = join(folder, 'passphrase.json');
  }

  /** Told apart from earlier passphrases; undefined while none is set. */
  version(): string | undefined {
    return this.read()?.salt;
  }

  /** @throws BadPassphrase */
  async set(passphrase: string): Promise<void> {
    const text = folded(passphrase);
    const length = [...text].length;
    if (length < SHORTEST)
      throw new BadPassphrase(
        `A passphrase needs at least ${SHORTEST} characters, better ${ADVISED} or more: four or five words that nobody would put together.`,
      );
    if (length > LONGEST) throw new BadPassphrase(`A passphrase has at most ${LONGEST} characters.`);
    if (new Set(text).size < 4)
      throw new BadPassphrase('A passphrase of one or two signs over and over is guessed at once.');
    const salt = randomBytes(16).toString('base64url');
    const hash = await this.hash(text, salt, this.cost);
    writePrivate(
      this.path,
      JSON.stringify({ kind: 'scrypt', ...this.cost, salt, hash: hash.toString('base64url') }),
    );
  }

  async fits(passphrase: string): Promise<boolean> {
    const set = this.read();
    if (set === undefined) return false;
    const said = folded(passphrase).slice(0, LONGEST * 2);
    const right = Buffer.from(set.hash, 'base64url');
    return timingSafeEqual(await this.hash(said, set.salt, set), right);
  }

  private read(): z.infer<typeof kept> | undefined {
    const text = readPrivate(this.path);
    return text === undefined ? undefined : kept.parse(JSON.parse(text));
  }

  /** One at a time: many guesses at once must not take all the memory there is. */
  private hash(text: string, salt: string, { N, r, p }: Cost): Promise<Buffer> {
    const mine = this.turn.then(
      () =>
        new Promise<Buffer>((done, failed) =>
          scrypt(text, salt, 32, { N, r, p, maxmem: 256 * N * r }, (error, hash) =>
            error === null ? done(hash) : failed(error),
          ),
        ),
    );
    this.turn = mine.catch(() => {});
    return mine;
  }
}
