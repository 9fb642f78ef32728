/** Seeded chance: the same seed gives the same numbers everywhere. Not for secrets. */

/** FNV-1a, the start of a generator's state. */
function hashOf(text: string, salt: number): number {
  let hash = 0x811c9dc5 ^ salt;
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return hash >>> 0;
}

export class Chance {
  /** State of sfc32 (C. Doty-Humphrey, PractRand). */
  #a: number;
  #b: number;
  #c: number;
  #counter = 1;

  constructor(readonly seed: string) {
    this.#a = hashOf(seed, 0x9e3779b9);
    this.#b = hashOf(seed, 0x243f6a88);
    this.#c = hashOf(seed, 0xb7e15162);
    for (let n = 0; n < 12; n++) this.bits();
  }

  /** A stream of its own, so that one more draw here moves nothing there. */
  of(label: string): Chance {
    return new Chance(`${this.seed}/${label}`);
  }

  /** 32 random bits. */
  bits(): number {
    const sum = (this.#a + this.#b + this.#counter++) | 0;
    this.#a = this.#b ^ (this.#b >>> 9);
    this.#b = (this.#c + (this.#c << 3)) | 0;
    this.#c = ((this.#c << 21) | (this.#c >>> 11)) + sum;
    return sum >>> 0;
  }

  /** From 0 up to, not including, 1. */
  fraction(): number {
    return this.bits() / 2 ** 32;
  }

  whether(chance: number): boolean {
    return this.fraction() < chance;
  }

  /** A whole number, both ends included. */
  between(low: number, high: number): number {
    return low + Math.floor(this.fraction() * (high - low + 1));
  }

  pick<T>(list: readonly T[]): T {
    return list[this.between(0, list.length - 1)]!;
  }

  /** A key, as often as its weight says. */
  weighted<Key extends string>(weights: Readonly<Record<Key, number>>): Key {
    const all = Object.entries(weights) as [Key, number][];
    let at = this.fraction() * all.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [key, weight] of all) {
      at -= weight;
      if (at < 0) return key;
    }
    return all.at(-1)![0];
  }

  some<T>(list: readonly T[], howMany: number): T[] {
    const left = [...list];
    const chosen: T[] = [];
    while (chosen.length < howMany && left.length > 0)
      chosen.push(...left.splice(this.between(0, left.length - 1), 1));
    return chosen;
  }

  /** Standard normal (Box and Muller 1958). */
  normal(): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.fraction()));
    return radius * Math.cos(2 * Math.PI * this.fraction());
  }

  /** A UUIDv7 (RFC 9562, 5.7) of that instant in milliseconds. */
  uuid(instant: number): string {
    const time = instant.toString(16).padStart(12, '0');
    const hex = (digits: number) => this.bits().toString(16).padStart(8, '0').slice(-digits);
    const variant = ((this.bits() & 0x3fff) | 0x8000).toString(16);
    return `${time.slice(0, 8)}-${time.slice(8)}-7${hex(3)}-${variant}-${hex(8)}${hex(4)}`;
  }
}
