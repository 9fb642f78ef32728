/** The day's streams and the answers that were last told, as this device keeps them. */
import type { Entry } from '../../server/contract/entry.ts';
import { type Database, type Day, type KeptAnswer, read, wholly } from './database.ts';

/** Answers kept at most; the oldest go first. */
const MOST_ANSWERS = 200;
const PUT_AT_ONCE = 50;

export class KeptDay {
  constructor(private readonly db: () => Promise<Database>) {}

  async day(): Promise<Day | undefined> {
    return this.fact<Day>('day');
  }

  async entries(): Promise<Entry[]> {
    return read(await this.db(), 'entries', (entries) => entries.getAll());
  }

  /**
   * The new day in one step: what is of no kept stream any more goes.
   * @throws DOMException QuotaExceededError where the device is full; the day is then as it was
   */
  async keep(day: Day, entries: readonly Entry[], anew: boolean): Promise<void> {
    const wanted = new Set(day.streams);
    const transaction = (await this.db()).transaction(['entries', 'facts'], 'readwrite');
    const store = transaction.objectStore('entries');
    await wholly(transaction, async () => {
      if (anew) await store.clear();
      const putting: Promise<unknown>[] = [];
      for (const [n, entry] of entries.entries()) {
        putting.push(store.put(entry));
        // A pause now and then, so that a touch is answered in between.
        if (n % PUT_AT_ONCE === PUT_AT_ONCE - 1) await Promise.all(putting.splice(0));
      }
      await Promise.all(putting);
      const before = (await transaction.objectStore('facts').get('day')) as Day | undefined;
      // All are looked through only where a stream is wanted no more.
      if (!anew && before?.streams.some((stream) => !wanted.has(stream)))
        for (let cursor = await store.openCursor(); cursor; cursor = await cursor.continue())
          if (!cursor.value.streams.some((stream) => wanted.has(stream))) await cursor.delete();
      await transaction.objectStore('facts').put(day, 'day');
    });
  }

  async answer(address: string): Promise<KeptAnswer | undefined> {
    return read(await this.db(), 'answers', (answers) => answers.get(address));
  }

  async keepAnswer(kept: KeptAnswer): Promise<void> {
    const transaction = (await this.db()).transaction('answers', 'readwrite');
    await wholly(transaction, async () => {
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
    });
  }

  /** Somebody was forgotten: what was told of them, and pictures of their ware, must not stay here. */
  async dropAnswers(): Promise<void> {
    const transaction = (await this.db()).transaction(['answers', 'smalls'], 'readwrite');
    await wholly(transaction, () =>
      Promise.all([transaction.objectStore('answers').clear(), transaction.objectStore('smalls').clear()]),
    );
  }

  async small(sha256: string): Promise<Blob | undefined> {
    return (await read(await this.db(), 'smalls', (smalls) => smalls.get(sha256)))?.blob;
  }

  /** Drops those that are wanted no more. @returns those that are not here yet, in the same order */
  async keepOnly(wanted: readonly string[]): Promise<readonly string[]> {
    const transaction = (await this.db()).transaction('smalls', 'readwrite');
    return wholly(transaction, async () => {
      const had = new Set(await transaction.store.getAllKeys());
      const still = new Set(wanted);
      await Promise.all(
        [...had].filter((sha256) => !still.has(sha256)).map((sha256) => transaction.store.delete(sha256)),
      );
      return [...still].filter((sha256) => !had.has(sha256));
    });
  }

  async keepSmall(sha256: string, blob: Blob): Promise<void> {
    await (await this.db()).put('smalls', { sha256, blob });
  }

  /** Nothing of the studio stays here but what waits to be sent. */
  async forget(): Promise<void> {
    const transaction = (await this.db()).transaction(['entries', 'answers', 'facts', 'smalls'], 'readwrite');
    await wholly(transaction, () =>
      Promise.all([
        transaction.objectStore('entries').clear(),
        transaction.objectStore('answers').clear(),
        transaction.objectStore('smalls').clear(),
        transaction.objectStore('facts').delete('day'),
      ]),
    );
  }

  async fact<T>(name: string): Promise<T | undefined> {
    return (await read(await this.db(), 'facts', (facts) => facts.get(name))) as T | undefined;
  }

  async keepFact(name: string, value: unknown): Promise<void> {
    await (await this.db()).put('facts', value, name);
  }
}
