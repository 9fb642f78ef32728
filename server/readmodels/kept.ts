/** What reports have worked out, kept as long as the rows that it was worked out from stand. */
import { LRUCache } from 'lru-cache';

/** Values that are kept in all, whatever they are part of. */
const MOST_VALUES = 2_000_000;
/** A single answer of more values is not kept. */
const MOST_AT_ONCE = 500_000;

export class Kept {
  private readonly made = new LRUCache<string, Promise<unknown>>({
    maxSize: MOST_VALUES,
    maxEntrySize: MOST_AT_ONCE,
  });

  /** What `make` gave for the key, or gives now. Those who ask meanwhile wait for the same. */
  async once<T>(key: string, make: () => Promise<T>): Promise<T> {
    const known = this.made.get(key) as Promise<T> | undefined;
    // One who asked earlier may have failed for a reason of its own.
    if (known) return known.catch(() => this.make(key, make));
    return this.make(key, make);
  }

  private make<T>(key: string, make: () => Promise<T>): Promise<T> {
    const making = make();
    this.made.set(key, making, { size: 1 });
    making.then(
      (it) => {
        if (this.made.peek(key) === making) this.made.set(key, making, { size: valuesIn(it) });
      },
      () => {
        if (this.made.peek(key) === making) this.made.delete(key);
      },
    );
    return making;
  }
}

/** Texts, numbers and the like in a value, at least one; counted no further than it matters. */
function valuesIn(value: unknown): number {
  let count = 1;
  const open: unknown[] = [value];
  while (open.length > 0 && count <= MOST_AT_ONCE) {
    const next = open.pop();
    if (typeof next !== 'object' || next === null) continue;
    if (ArrayBuffer.isView(next)) {
      count += next.byteLength / 8;
      continue;
    }
    const parts = next instanceof Map ? [...next.values()] : Object.values(next);
    count += parts.length;
    for (const part of parts) if (typeof part === 'object') open.push(part);
  }
  return Math.ceil(count);
}
