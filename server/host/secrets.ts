/** What the user gives plugins to keep to themselves: keys and addresses, in `secrets.json` of the data folder, never in the log. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

export const SECRETS = 'secrets.json';

const shape = z.record(z.string(), z.record(z.string(), z.string()));

/** @throws Error with a sentence, where the file is there and cannot be read */
export function readSecrets(dir: string): Readonly<Record<string, Readonly<Record<string, string>>>> {
  const path = join(dir, SECRETS);
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch {
    return {};
  }
  try {
    return shape.parse(JSON.parse(text));
  } catch {
    throw new Error(
      `${path} cannot be read: it should look like {"shop-orders": {"feed-address": "https://…", "feed-key": "…"}}.`,
    );
  }
}
