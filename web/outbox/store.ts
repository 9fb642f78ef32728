/** The outbox as it stands in the database. Every write is on the disk before it counts as done. */
import { type Database, type KeptFile, read, wholly } from '../device/database.ts';
import { isFull } from '../device/room.ts';
import type { Settled } from './sender.ts';
import type { NewUnsent, SentOrder, Unsent } from './unsent.ts';

/** A dead battery a moment later must not take it along. */
const STRICT = { durability: 'strict' } as const;

export class OutboxStore {
  constructor(private readonly db: () => Promise<Database>) {}

  /**
   * All of them with their pictures, or none.
   * @throws DOMException QuotaExceededError where the device is full
   */
  async add(entries: readonly NewUnsent[], files: readonly KeptFile[] = []): Promise<void> {
    const transaction = (await this.db()).transaction(['outbox', 'files'], 'readwrite', STRICT);
    const outbox = transaction.objectStore('outbox');
    const pictures = transaction.objectStore('files');
    await wholly(transaction, () =>
      Promise.all([
        // `n` is the database's to give, so that tabs that note at once do not take the same one.
        ...entries.map((entry) => outbox.add({ ...entry, state: 'waiting' } as Unsent)),
        ...files.map((file) => pictures.put(file)),
      ]),
    );
  }

  /** After the database was cleared: as they were, in their order; those that are there already stay. @returns how many */
  async putBack(entries: readonly Unsent[]): Promise<number> {
    const transaction = (await this.db()).transaction('outbox', 'readwrite', STRICT);
    return wholly(transaction, async () => {
      let back = 0;
      for (const { n: _n, ...entry } of entries) {
        if (await transaction.store.index('id').get(entry.id)) continue;
        await transaction.store.add(entry as Unsent);
        back += 1;
      }
      return back;
    });
  }

  /** In the order they were noted, those left out among them. */
  async all(): Promise<Unsent[]> {
    return read(await this.db(), 'outbox', (outbox) => outbox.getAll());
  }

  /**
   * Only what the studio has taken, or has told the one who is still looking at it. What became entries
   * is set aside until the kept day holds them, as long as there is room for that.
   */
  async settle(settled: readonly Settled[]): Promise<void> {
    try {
      await this.move(settled, true);
    } catch (error) {
      if (!isFull(error)) throw error;
      await this.move(settled, false);
    }
  }

  private async move(settled: readonly Settled[], aside: boolean): Promise<void> {
    const transaction = (await this.db()).transaction(['outbox', 'sent', 'files'], 'readwrite', STRICT);
    const outbox = transaction.objectStore('outbox');
    await wholly(transaction, async () => {
      for (const { id, last } of settled) {
        const entry = await outbox.index('id').get(id);
        if (!entry) continue;
        await outbox.delete(entry.n);
        // Not before its order was taken: until then this may be the only place where it is.
        for (const sha256 of entry.files ?? []) await transaction.objectStore('files').delete(sha256);
        if (aside && last !== undefined) await transaction.objectStore('sent').put({ ...entry, last });
      }
    });
  }

  /** Taken by the studio, and not in the kept day yet. */
  async sent(): Promise<SentOrder[]> {
    return read(await this.db(), 'sent', (sent) => sent.getAll());
  }

  /** The kept day holds all entries up to this one. */
  async dayHolds(count: number): Promise<void> {
    const transaction = (await this.db()).transaction('sent', 'readwrite');
    await wholly(transaction, async () => {
      for (const { id, last } of await transaction.store.getAll())
        if (last <= count) await transaction.store.delete(id);
    });
  }

  async change(id: string, by: (entry: Unsent) => Unsent): Promise<void> {
    const transaction = (await this.db()).transaction('outbox', 'readwrite', STRICT);
    await wholly(transaction, async () => {
      const entry = await transaction.store.index('id').get(id);
      if (entry) await transaction.store.put(by(entry));
    });
  }

  /**
   * Leaves one out with the reason, its taking back as well, and puts others in its place; what
   * rested on it rests on the last of those.
   */
  async leaveOut(id: string, why: string, by: readonly NewUnsent[] = []): Promise<void> {
    const transaction = (await this.db()).transaction('outbox', 'readwrite', STRICT);
    const last = by.at(-1)?.id;
    await wholly(transaction, async () => {
      for (const entry of await transaction.store.getAll()) {
        const undoesIt = (entry.input as { command?: unknown }).command === id;
        if (entry.id === id || (undoesIt && entry.command === 'entry.strike'))
          await transaction.store.put({ ...entry, state: 'left-out', why });
        else if (last !== undefined && entry.needs.includes(id))
          await transaction.store.put({
            ...entry,
            needs: [...entry.needs.filter((it) => it !== id), last],
          });
      }
      for (const fresh of by) await transaction.store.add({ ...fresh, state: 'waiting' } as Unsent);
    });
  }

  async files(hashes: readonly string[]): Promise<{ sha256: string; blob: Blob }[]> {
    const found = await read(await this.db(), 'files', (files) =>
      Promise.all(hashes.map((hash) => files.get(hash))),
    );
    return found.filter((file) => file !== undefined);
  }
}
