/** The day's streams and the answers that were last told, as this device keeps them. */
import type { Entry } from '../../server/contract/entry.ts';
import type { Database, Day, KeptAnswer } from './database.ts';

/** Answers kept at most; the oldest go first. */
const MOST_ANSWERS = 200;
const PUT_AT_ONCE = 50;

export class KeptDay {
  constructor(private readonly db: () => Promise<Database>) {}

  async day(): Promise<Day | undefined> {
    return (await (await this.db()).get('facts', 'day')) as Day | undefined;
  }

  async entries(): Promise<Entry[]> {
    return (await this.db()).getAll('entries');
  }

  /** The new day in one step: what is of no kept stream any more goes. */
  async keep(day: Day, entries: readonly Entry[], anew: boolean): Promise<void> {
    const wanted = new Set(day.streams);
    const transaction = (await this.db()).transaction(['entries', 'facts'], 'readwrite');
    const store = transaction.objectStore('entries');
    if (anew) await store.clear();
    for (const [n, entry] of entries.entries()) {
      const putting = store.put(entry);
      // A pause now and then, so that a touch is answered in between.
      if (n % PUT_AT_ONCE === PUT_AT_ONCE - 1) await putting;
    }
    const before = (await transaction.objectStore('facts').get('day')) as Day | undefined;
    // All are looked through only where a stream is wanted no more.
    if (!anew && before?.streams.some((stream) => !wanted.has(stream)))
      for (let cursor = await store.openCursor(); cursor; cursor = await cursor.continue())
        if (!cursor.value.streams.some((stream) => wanted.has(stream))) void cursor.delete();
    void transaction.objectStore('facts').put(day, 'day');
    await transaction.done;
  }

  async answer(address: string): Promise<KeptAnswer | undefined> {
    return (await this.db()).get('answers', address);
  }

  async keepAnswer(kept: KeptAnswer): Promise<void> {
    const transaction = (await this.db()).transaction('answers', 'readwrite');
    await transaction.store.put(kept);
    let over = (await transaction.store.count()) - MOST_ANSWERS;
    for (
      let cursor = over > 0 ? await transaction.store.index('at').openCursor() : null;
      cursor && over > 0;
      over--
    ) {
      await cursor.delete();
      cursor = await cursor.continue();
    }
    await transaction.done;
  }

  /** Somebody was forgotten: what was told of them, and pictures of their ware, must not stay here. */
  async dropAnswers(): Promise<void> {
    const transaction = (await this.db()).transaction(['answers', 'smalls'], 'readwrite');
    void transaction.objectStore('answers').clear();
    void transaction.objectStore('smalls').clear();
    await transaction.done;
  }

  async small(sha256: string): Promise<Blob | undefined> {
    return (await (await this.db()).get('smalls', sha256))?.blob;
  }

  /** Drops those that are wanted no more. @returns those that are not here yet, in the same order */
  async keepOnly(wanted: readonly string[]): Promise<readonly string[]> {
    const transaction = (await this.db()).transaction('smalls', 'readwrite');
    const had = new Set(await transaction.store.getAllKeys());
    const still = new Set(wanted);
    for (const sha256 of had) if (!still.has(sha256)) void transaction.store.delete(sha256);
    await transaction.done;
    return [...still].filter((sha256) => !had.has(sha256));
  }

  async keepSmall(sha256: string, blob: Blob): Promise<void> {
    await (await this.db()).put('smalls', { sha256, blob });
  }

  /** Nothing of the studio stays here but what waits to be sent. */
  async forget(): Promise<void> {
    const transaction = (await this.db()).transaction(['entries', 'answers', 'facts', 'smalls'], 'readwrite');
    void transaction.objectStore('entries').clear();
    void transaction.objectStore('answers').clear();
    void transaction.objectStore('smalls').clear();
    void transaction.objectStore('facts').delete('day');
    await transaction.done;
  }

  async fact<T>(name: string): Promise<T | undefined> {
    return (await (await this.db()).get('facts', name)) as T | undefined;
  }

  async keepFact(name: string, value: unknown): Promise<void> {
    await (await this.db()).put('facts', value, name);
  }
}
