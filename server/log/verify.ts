/** Walks the whole log and holds everything it promises against what is there. */
import { NOTHING } from './chain.ts';
import { type Head, LogDamaged, type Verdict } from './log.ts';
import { TABLES } from './schema.ts';
import { ChainWalk, type EntryRow } from './walk.ts';

export interface StreamRow {
  readonly stream: string;
  readonly position: number;
  readonly seq: number;
  /** Whether the entry of that seq names the stream. */
  readonly named: boolean;
}

/** A home's tables, page by page. Where the log grows meanwhile, later pages may show it. */
export interface Pages {
  /** Name and SQL of every table and trigger. */
  tables(): Promise<{ name: string; sql: string }[]>;
  head(): Promise<Head>;
  entries(after: number, limit: number): Promise<EntryRow[]>;
  streamRows(after: { stream: string; position: number }, limit: number): Promise<StreamRow[]>;
  /** The first entry that names a stream whose index does not lead to it. */
  unindexed(): Promise<number | undefined>;
  /** Up to `limit` claims, and the head at the very same moment. */
  claims(limit: number): Promise<{ held: Map<string, number>; head: Head }>;
  close(): void;
}

const PAGE = 1000;
const FIRST_ROW = { stream: '', position: 0 };

type Broken = NonNullable<Verdict['broken']>;

/**
 * @param open the tables to walk; closed at the end
 * @param readOutside reads the outside head; undefined for a log that has none (in memory)
 * @param progress is called with the entries walked so far
 */
export async function verify(
  open: () => Pages,
  readOutside: (() => Head | undefined) | undefined,
  progress: (walked: number, of: number) => void = () => {},
): Promise<Verdict> {
  const walk = new ChainWalk();
  let pages: Pages | undefined;
  try {
    // The outside head first: the log may only grow after it.
    const outside = outsideOf(readOutside);
    pages = open();
    const broken = (await changedTables(pages)) ?? (await walkAll(pages, walk, outside.head, progress));
    const verdict = { entries: walk.count, head: walk.head };
    if (broken !== undefined) return { ...verdict, broken };
    if (outside.why !== undefined) return { ...verdict, broken: { seq: walk.count, why: outside.why } };
    const expected = outside.head?.count ?? 0;
    if (expected > walk.count) return { ...verdict, missing: { expected, found: walk.count } };
    return verdict;
  } catch (error) {
    const why = `the database cannot read on from here: ${error instanceof Error ? error.message : String(error)}`;
    return { entries: walk.count, head: walk.head, broken: { seq: walk.count + 1, why } };
  } finally {
    pages?.close();
  }
}

function outsideOf(read: (() => Head | undefined) | undefined): { head?: Head; why?: string } {
  if (read === undefined) return {};
  try {
    const head = read();
    return head === undefined ? { why: 'the outside head is missing' } : { head };
  } catch (error) {
    if (error instanceof LogDamaged) return { why: error.message };
    throw error;
  }
}

/** Without its triggers the log is no longer append-only, even if nothing has been done to it yet. */
async function changedTables(pages: Pages): Promise<Broken | undefined> {
  const found = new Map((await pages.tables()).map(({ name, sql }) => [name, sql]));
  for (const [name, sql] of TABLES) {
    if (found.get(name) !== sql)
      return { seq: 0, why: `the table or trigger ${name} has been changed or removed` };
  }
  return undefined;
}

async function walkAll(
  pages: Pages,
  walk: ChainWalk,
  outside: Head | undefined,
  progress: (walked: number, of: number) => void,
): Promise<Broken | undefined> {
  let head = await pages.head();
  for (;;) {
    const broken = await walkEntries(pages, walk, outside, head.count, progress);
    if (broken !== undefined) return broken;
    // One more than there should be: a damaged table must not fill the memory.
    const claims = await pages.claims(walk.claimsHeld + 1);
    head = claims.head;
    if (head.count <= walk.count) return (await walkStreams(pages, walk)) ?? walk.compareClaims(claims.held);
  }
}

async function walkEntries(
  pages: Pages,
  walk: ChainWalk,
  outside: Head | undefined,
  of: number,
  progress: (walked: number, of: number) => void,
): Promise<Broken | undefined> {
  if (outside?.count === 0 && outside.hash !== NOTHING.hash)
    return { seq: 0, why: 'the outside head is not one of an empty log' };
  for (;;) {
    const page = await pages.entries(walk.count, PAGE);
    for (const row of page) {
      const why = walk.step(row);
      if (why !== undefined) return { seq: walk.count + 1, why };
      if (row.seq === outside?.count && row.hash !== outside.hash)
        return {
          seq: row.seq,
          why: 'it is not the entry that was acknowledged (the outside head has another hash)',
        };
    }
    progress(walk.count, Math.max(of, walk.count));
    if (page.length < PAGE) return undefined;
    await new Promise(setImmediate);
  }
}

/**
 * Every index row must lead to an entry that names its stream, in order and without gaps; as many
 * rows as the entries name streams are then all of them.
 */
async function walkStreams(pages: Pages, walk: ChainWalk): Promise<Broken | undefined> {
  let last: { stream: string; position: number; seq: number } = { ...FIRST_ROW, seq: 0 };
  let rows = 0;
  for (;;) {
    const page = await pages.streamRows(last, PAGE);
    for (const row of page) {
      const before = row.stream === last.stream ? last : { position: 0, seq: 0 };
      if (row.position !== before.position + 1 || row.seq <= before.seq || !follows(row.stream, last.stream))
        return { seq: row.seq, why: `its place in ${row.stream} is out of order` };
      last = row;
      if (row.seq > walk.count) continue;
      if (!row.named)
        return { seq: row.seq, why: `it stands in the index of ${row.stream}, which it does not name` };
      rows += 1;
    }
    if (page.length < PAGE) break;
    await new Promise(setImmediate);
  }
  if (rows === walk.streamsNamed) return undefined;
  return { seq: (await pages.unindexed()) ?? 0, why: 'it is missing from the index of a stream it names' };
}

/** In the database's order, which is that of the bytes. */
function follows(stream: string, last: string): boolean {
  return stream === last || Buffer.compare(Buffer.from(stream), Buffer.from(last)) > 0;
}
