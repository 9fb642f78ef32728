/** Keeps small pictures of the day's ware on this device: the newest of each piece, those in kilns first. */
import type { Entry } from '../../server/contract/entry.ts';
import { lotOf } from '../../server/contract/studio/values.ts';
import type { KeptDay } from './kept.ts';

/** Pictures kept at most: some megabytes. */
const MOST = 240;

interface Attached {
  readonly to: string;
  readonly sha256: string;
}

/** @returns the small picture, or undefined where it was erased; throws where the studio is not heard */
type Bring = (sha256: string) => Promise<Blob | undefined>;

/** SHA-256 of the newest picture of each piece. @param streams in the order in which they matter */
export function newestPictures(streams: readonly string[], entries: readonly Entry[]): readonly string[] {
  const struck = struckOf(entries);
  const newest = new Map<string, { readonly entry: Entry; readonly of: Attached }>();
  for (const entry of entries) {
    const of = entry.data as Attached;
    if (entry.name !== 'file.attached' || struck.has(entry.seq) || !of.to.startsWith('piece:')) continue;
    const before = newest.get(of.to)?.entry;
    if (!before || isAfter(entry, before)) newest.set(of.to, { entry, of });
  }
  const place = new Map(streams.map((stream, n) => [stream, n]));
  const rank = ({ of }: { of: Attached }) =>
    place.get(`piece:${lotOf(of.to.slice('piece:'.length))}`) ?? streams.length;
  const inOrder = [...newest.values()].sort((a, b) => rank(a) - rank(b) || b.entry.seq - a.entry.seq);
  return [...new Set(inOrder.map(({ of }) => of.sha256))].slice(0, MOST);
}

/** The last word first: a strike that was struck strikes nothing. */
function struckOf(entries: readonly Entry[]): ReadonlySet<number> {
  const struck = new Set<number>();
  for (const { name, seq, data } of [...entries].sort((a, b) => b.seq - a.seq))
    if (name === 'entry.struck' && !struck.has(seq)) struck.add((data as { seq: number }).seq);
  return struck;
}

const isAfter = (entry: Entry, other: Entry): boolean =>
  entry.happenedAt === other.happenedAt ? entry.seq > other.seq : entry.happenedAt > other.happenedAt;

export async function fetchPictures(kept: KeptDay, bring: Bring = small): Promise<void> {
  const day = await kept.day();
  if (!day) return;
  const missing = await kept.keepOnly(newestPictures(day.streams, await kept.entries()));
  // One after the other: it must not stand in the way of what the screen asks for.
  for (const sha256 of missing) {
    const blob = await bring(sha256);
    if (blob) await kept.keepSmall(sha256, blob);
  }
}

async function small(sha256: string): Promise<Blob | undefined> {
  const answer = await fetch(`/api/files/${sha256}?size=small`);
  return answer.ok ? answer.blob() : undefined;
}
