/** What the user gives plugins to keep to themselves: keys and addresses, in `secrets.json` of the data folder, never in the log. */
import { join } from 'node:path';
import { z } from 'zod';
import { readPrivate, writePrivate } from '../network/private-file.ts';

export const SECRETS = 'secrets.json';

const shape = z.record(z.string(), z.record(z.string(), z.string()));
type Kept = z.infer<typeof shape>;

export interface Secrets {
  get(plugin: string, name: string): string | undefined;
  /** Null takes it away. */
  set(plugin: string, given: Readonly<Record<string, string | null>>): void;
}

/** Kept in memory only; for tests, and where nothing is to be kept. */
export class SecretsHeld implements Secrets {
  constructor(protected kept: Kept = {}) {}

  get(plugin: string, name: string): string | undefined {
    return this.kept[plugin]?.[name];
  }

  set(plugin: string, given: Readonly<Record<string, string | null>>): void {
    const now = Object.entries({ ...this.kept[plugin], ...given });
    const left = now.filter((one): one is [string, string] => one[1] !== null && one[1] !== '');
    this.kept = { ...this.kept, [plugin]: Object.fromEntries(left) };
  }
}

/** In the data folder, readable by this user only; read anew at each use, so that a change by hand holds at once. */
export class SecretsFile extends SecretsHeld {
  private readonly path: string;

  /** @throws Error with a sentence, where the file is there and cannot be read */
  constructor(dir: string) {
    super();
    this.path = join(dir, SECRETS);
    this.kept = this.read();
  }

  override get(plugin: string, name: string): string | undefined {
    this.kept = this.read();
    return super.get(plugin, name);
  }

  override set(plugin: string, given: Readonly<Record<string, string | null>>): void {
    this.kept = this.read();
    super.set(plugin, given);
    writePrivate(this.path, `${JSON.stringify(this.kept, undefined, 2)}\n`);
  }

  private read(): Kept {
    const text = readPrivate(this.path);
    if (text === undefined) return {};
    try {
      return shape.parse(JSON.parse(text));
    } catch {
      throw new Error(
        `${this.path} cannot be read: it should look like {"shop-orders": {"feed-address": "https://…", "feed-key": "…"}}.`,
      );
    }
  }
}
