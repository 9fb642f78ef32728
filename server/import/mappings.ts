/** Which of our columns a file's headings stand for, remembered for the next file with the same headings. */
import { readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import type { Mapping } from './headings.ts';
import { headingsKey } from './headings.ts';

const FILE = 'mappings.json';
/** Kept; the oldest go. */
const MOST = 100;

/* Pairs and not an object: a heading may be any text. */
const remembered = z.array(
  z.strictObject({ headings: z.string(), columns: z.array(z.tuple([z.string(), z.string()])) }),
);

async function all(folder: string): Promise<z.infer<typeof remembered>> {
  const text = await readFile(join(folder, FILE), 'utf8').catch(() => '[]');
  try {
    return remembered.parse(JSON.parse(text));
  } catch {
    /* It only saves a question: a damaged file is as good as none. */
    return [];
  }
}

/** The mapping that was last used for a file with these headings; empty when there was none. */
export async function recallMapping(folder: string, headings: readonly string[]): Promise<Mapping> {
  const key = headingsKey(headings);
  const found = (await all(folder)).find((one) => one.headings === key);
  return Object.fromEntries(found?.columns ?? []);
}

export async function rememberMapping(
  folder: string,
  headings: readonly string[],
  mapping: Mapping,
): Promise<void> {
  const key = headingsKey(headings);
  const others = (await all(folder)).filter((one) => one.headings !== key);
  const kept = [...others, { headings: key, columns: Object.entries(mapping) }].slice(-MOST);
  const path = join(folder, FILE);
  await writeFile(`${path}.new`, `${JSON.stringify(kept, null, 1)}\n`);
  await rename(`${path}.new`, path);
}
