/**
 * Which streams were met already, in bounded memory: a Bloom filter (B. H. Bloom, "Space/time trade-offs
 * in hash coding with allowable errors", CACM 13(7), 1970) with two bits a name. A name wrongly taken for
 * met only costs a look into the log.
 */

/** 8 MiB; with a million names about one new name in a thousand is taken for a met one. */
const BITS = 1 << 26;

export class Seen {
  private readonly bits = new Uint8Array(BITS >> 3);

  /** True when the name is certainly new. */
  add(name: string): boolean {
    const first = this.set(hash(name, 0x811c9dc5));
    const second = this.set(hash(name, 0x9747b28c));
    return first || second;
  }

  private set(bit: number): boolean {
    const at = bit >>> 3;
    const mask = 1 << (bit & 7);
    const old = this.bits[at]!;
    this.bits[at] = old | mask;
    return (old & mask) === 0;
  }
}

/** FNV-1a with a last stir, as a place among the bits. */
function hash(name: string, seed: number): number {
  let h = seed;
  for (let i = 0; i < name.length; i++) h = Math.imul(h ^ name.charCodeAt(i), 0x01000193);
  h ^= h >>> 15;
  h = Math.imul(h, 0x2c1b3c6d);
  h ^= h >>> 12;
  return (h >>> 0) & (BITS - 1);
}
