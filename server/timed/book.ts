/**
 * How often each timed work is done, whether at all, and how it went the last time: in `timed.json` of the data
 * folder. It belongs to this machine and is no part of the record.
 */
import { join } from 'node:path';
import { z } from 'zod';
import { readPrivate, writePrivate } from '../network/private-file.ts';

const FILE = 'timed.json';

const noted = z.strictObject({
  off: z.boolean().optional(),
  /** Minutes between two times, where the user chose. */
  every: z.number().int().min(1).optional(),
  last: z
    .strictObject({ at: z.iso.datetime(), sentence: z.string(), failed: z.boolean().optional() })
    .optional(),
  /** How often it failed one after the other, and since when. */
  failures: z.number().int().min(0).optional(),
  since: z.iso.datetime().optional(),
});
export type Noted = z.infer<typeof noted>;

const shape = z.record(z.string(), noted);

/** Kept in memory only. */
export class Book {
  protected kept: z.infer<typeof shape> = {};

  of(plugin: string, job: string): Noted {
    return this.kept[`${plugin} ${job}`] ?? {};
  }

  note(plugin: string, job: string, change: Noted): Noted {
    const now = { ...this.of(plugin, job), ...change };
    this.kept = { ...this.kept, [`${plugin} ${job}`]: now };
    this.write();
    return now;
  }

  protected write(): void {}
}

export class BookInFolder extends Book {
  private readonly path: string;

  constructor(dir: string) {
    super();
    this.path = join(dir, FILE);
    const text = readPrivate(this.path);
    try {
      if (text !== undefined) this.kept = shape.parse(JSON.parse(text));
    } catch {
      // A damaged file says nothing any more; what is noted next writes it anew.
    }
  }

  protected override write(): void {
    writePrivate(this.path, `${JSON.stringify(this.kept, undefined, 2)}\n`);
  }
}
