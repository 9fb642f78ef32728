/** What must stay as it was, or what waits on a phone is stranded: the ports and the name it came in by. */
import { join } from 'node:path';
import { z } from 'zod';
import { readPrivate, writePrivate } from './private-file.ts';

const port = z.number().int().min(1).max(65_535);
const settings = z.object({
  /** Port of the page over https. */
  https: port,
  /** Port of the plain page that hands out the authority's certificate. */
  trust: port,
  /** Name or number by which the first device came in. */
  host: z.string().optional(),
});
export type NetworkSettings = z.infer<typeof settings>;

const pathOf = (folder: string): string => join(folder, 'network.json');

/** @param folder `network` in the data folder */
export function readSettings(folder: string): NetworkSettings | undefined {
  const text = readPrivate(pathOf(folder));
  return text === undefined ? undefined : settings.parse(JSON.parse(text));
}

export function writeSettings(folder: string, now: NetworkSettings): void {
  const before = readSettings(folder);
  if (JSON.stringify(before) !== JSON.stringify(now)) writePrivate(pathOf(folder), JSON.stringify(now));
}
