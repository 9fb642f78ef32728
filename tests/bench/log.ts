/** How quickly the log records and reads, beside a bare loop and a peer, in turns and in the same run. */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { EventLog } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { Bare } from './bare.ts';
import { type Line, median, rate } from './measure.ts';
import { loadPeer, Peer, type PeerLibrary } from './peer.ts';
import { glazing } from './rows.ts';

const SINGLES = 1000;
const BULKS = 20;
const BULK = 1000;
const WAITING = 64;
const EACH = 100;
const TURNS = 5;

type Rates = Record<'single' | 'bulk' | 'waiting' | 'read', number>;

export interface LogBench {
  readonly lines: readonly Line[];
  readonly remark: string;
}

/** @param folder on the disk to be measured */
export async function benchLog(
  folder: string,
  progress: (what: string) => void = () => {},
): Promise<LogBench> {
  const peer = await loadPeer(folder);
  const turns = { process: [] as Rates[], thread: [] as Rates[], bare: [] as Rates[], peer: [] as Rates[] };
  for (let turn = 1; turn <= TURNS; turn++) {
    progress(`log: turn ${turn} of ${TURNS}`);
    turns.bare.push(await inFolder(folder, bareTurn));
    turns.process.push(await inFolder(folder, (dir) => ourTurn(dir, false)));
    turns.thread.push(await inFolder(folder, (dir) => ourTurn(dir, true)));
    turns.peer.push(await inFolder(folder, (dir) => peerTurn(dir, peer)));
  }
  const rates = Object.fromEntries(Object.entries(turns).map(([who, all]) => [who, medians(all)]));
  return { lines: linesOf(rates as Record<keyof typeof turns, Rates>), remark: peer.remark };
}

async function inFolder(folder: string, turn: (dir: string) => Promise<Rates>): Promise<Rates> {
  const dir = mkdtempSync(join(folder, 'log-'));
  try {
    return await turn(dir);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}

const singles = Array.from({ length: SINGLES }, (_, n) => glazing(n));
const bulks = Array.from({ length: BULKS }, (_, k) =>
  Array.from({ length: BULK }, (_, n) => glazing(10_000 + k * BULK + n)),
);
const waiting = Array.from({ length: WAITING }, (_, k) =>
  Array.from({ length: EACH }, (_, n) => glazing(100_000 + k * EACH + n)),
);
const ALL = SINGLES + BULKS * BULK + WAITING * EACH;

async function bareTurn(dir: string): Promise<Rates> {
  const bare = new Bare(dir);
  const single = await rate(SINGLES, () => {
    for (const one of singles) bare.write([one]);
  });
  const bulk = await rate(BULKS * BULK, () => {
    for (const many of bulks) bare.write(many);
  });
  bare.write(waiting.flat());
  const read = await rate(ALL, () => counted(bare.read()));
  bare.close();
  return { single, bulk, waiting: Number.NaN, read };
}

async function ourTurn(dir: string, thread: boolean): Promise<Rates> {
  const log = await openLog({ dir, clock: () => new Date(), thread });
  const single = await rate(SINGLES, async () => {
    for (const one of singles) await log.append(one);
  });
  const bulk = await rate(BULKS * BULK, async () => {
    for (const many of bulks) await log.appendAll(many);
  });
  const together = await rate(WAITING * EACH, () =>
    Promise.all(
      waiting.map(async (producer) => {
        for (const one of producer) await log.append(one);
      }),
    ),
  );
  const read = await rate(ALL, async () => counted(await readAll(log)));
  await log.close();
  return { single, bulk, waiting: together, read };
}

async function readAll(log: EventLog): Promise<number> {
  let count = 0;
  for (;;) {
    const page = await log.read(count, 1000);
    if (page.length === 0) return count;
    count += page.length;
  }
}

/** The peer takes one stream at a time, so its bulk is one append of 1,000 events, and 64 wait as one. */
async function peerTurn(dir: string, { library }: PeerLibrary): Promise<Rates> {
  const peer = new Peer(library, dir);
  const some = singles.slice(0, 100);
  const single = await rate(some.length, async () => {
    for (const one of some) await peer.append(one);
  });
  const many = Array.from({ length: 5 }, (_, k) => glazing(10_000 + k, BULK));
  const bulk = await rate(many.length * BULK, async () => {
    for (const one of many) await peer.append(one);
  });
  const read = await rate(some.length + many.length * BULK, () => peer.read());
  return { single, bulk, waiting: Number.NaN, read };
}

function counted(count: number): void {
  if (count !== ALL) throw new Error(`read ${count} entries of ${ALL}`);
}

function medians(turns: readonly Rates[]): Rates {
  const of = (what: keyof Rates) => median(turns.map((turn) => turn[what]));
  return { single: of('single'), bulk: of('bulk'), waiting: of('waiting'), read: of('read') };
}

function linesOf({
  process,
  thread,
  bare,
  peer,
}: Record<'process' | 'thread' | 'bare' | 'peer', Rates>): Line[] {
  const against = (what: 'single' | 'bulk' | 'read', ours: Rates, words: string): Line => ({
    what: words,
    ours: ours[what],
    bare: bare[what],
    peer: peer[what],
    aim: '0.6 of bare',
    reached: ours[what] >= 0.6 * bare[what],
  });
  const group = (ours: Rates, where: string): Line => ({
    what: `append, 64 waiting at once, ${where} (${(ours.waiting / ours.single).toFixed(1)} times one at a time)`,
    ours: ours.waiting,
    aim: '5 times one at a time',
    reached: ours.waiting >= 5 * ours.single,
  });
  return [
    against('single', process, 'append one at a time, in process'),
    against('single', thread, 'append one at a time, on a thread'),
    against('bulk', process, 'append 1,000 at a time, in process'),
    against('bulk', thread, 'append 1,000 at a time, on a thread'),
    group(process, 'in process'),
    group(thread, 'on a thread'),
    against('read', thread, 'read all, 1,000 at a time'),
  ];
}
