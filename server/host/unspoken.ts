/**
 * Files that were sent and of which no entry ever spoke: the entry was refused, or never came. They are let
 * go of after a long while. An entry counts as speaking of a file wherever its name stands in it: struck out,
 * or of a plugin that is not there any more.
 */
import type { Pictures } from '../files/pictures.ts';
import type { EventLog } from '../log/log.ts';

/** A phone may have sent a picture, and hold back the entry that names it for weeks. */
export const DAYS_OF_GRACE = 60;

const PAGE = 5_000;
const NAMES = /[0-9a-f]{64}/g;

/** @returns SHA-256 of those that are gone */
export async function clearUnspoken(log: EventLog, pictures: Pictures, now: Date): Promise<string[]> {
  const { files } = pictures;
  const since = new Date(now.getTime() - DAYS_OF_GRACE * 86_400_000);
  const old = new Set<string>();
  for (const { sha256, standing } of await files.list())
    if (standing === 'kept' && files.touched(sha256)! < since) old.add(sha256);
  for (let after = 0; old.size > 0; ) {
    const entries = await log.read(after, PAGE);
    if (entries.length === 0) break;
    for (const name of JSON.stringify(entries).match(NAMES) ?? []) old.delete(name);
    after = entries.at(-1)!.seq;
  }
  const gone: string[] = [];
  for (const sha256 of old) if (await pictures.letGo(sha256, since)) gone.push(sha256);
  return gone;
}
