/** How quickly the log records and reads, beside a bare loop and a peer, in turns and in the same run. */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { EventLog } from '../../server/log/log.ts';
import { openLog } from '../../server/log/open.ts';
import { Bare } from './bare.ts';
import { against, type Line, median, rate } from './measure.ts';
import { loadPeer, Peer, type PeerLibrary } from './peer.ts';
import { glazing, glazingMany } from './rows.ts';

const SINGLES = 300;
const BULKS = 10;
const BULK = 1000;
const WAITING = 64;
const EACH = 50;
const TURNS = 5;

type What = 'single' | 'bulk' | 'large' | 'waiting' | 'read';
/** NaN where a contender does not do it. */
type Rates = Record<What, number>;
type Turns = Record<'process' | 'thread' | 'bare' | 'peer', Rates[]>;

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
  const turns: Turns = { process: [], thread: [], bare: [], peer: [] };
  for (let turn = 1; turn <= TURNS; turn++) {
    progress(`log: turn ${turn} of ${TURNS}`);
    turns.bare.push(await inFolder(folder, bareTurn));
    turns.process.push(await inFolder(folder, (dir) => ourTurn(dir, false)));
    turns.thread.push(await inFolder(folder, (dir) => ourTurn(dir, true)));
    turns.peer.push(await inFolder(folder, (dir) => peerTurn(dir, peer)));
  }
  return { lines: linesOf(turns), remark: peer.remark };
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
const large = Array.from({ length: BULKS }, (_, n) => glazingMany(200_000 + n * BULK, BULK));
const ALL = SINGLES + 2 * BULKS * BULK + WAITING * EACH;

async function bareTurn(dir: string): Promise<Rates> {
  const bare = new Bare(dir);
  const single = await rate(SINGLES, () => {
    for (const one of singles) bare.write([one]);
  });
  const bulk = await rate(BULKS * BULK, () => {
    for (const many of bulks) bare.write(many);
  });
  const one = await rate(BULKS * BULK, () => {
    for (const command of large) bare.write([command]);
  });
  bare.write(waiting.flat());
  const read = await rate(ALL, () => counted(bare.read()));
  bare.close();
  return { single, bulk, large: one, waiting: Number.NaN, read };
}

async function ourTurn(dir: string, thread: boolean): Promise<Rates> {
  const log = await openLog({ dir, clock: () => new Date(), thread });
  const single = await rate(SINGLES, async () => {
    for (const one of singles) await log.append(one);
  });
  const bulk = await rate(BULKS * BULK, async () => {
    for (const many of bulks) await log.appendAll(many);
  });
  const one = await rate(BULKS * BULK, async () => {
    for (const command of large) await log.append(command);
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
  return { single, bulk, large: one, waiting: together, read };
}

async function readAll(log: EventLog): Promise<number> {
  let count = 0;
  for (;;) {
    const page = await log.read(count, 1000);
    if (page.length === 0) return count;
    count += page.length;
  }
}

/** The peer appends to one stream at a time, so it has only single events and 1,000 in one go. */
async function peerTurn(dir: string, { library }: PeerLibrary): Promise<Rates> {
  const peer = new Peer(library, dir);
  const some = singles.slice(0, 100);
  const single = await rate(some.length, async () => {
    for (const one of some) await peer.append(one);
  });
  const many = Array.from({ length: 5 }, (_, k) => glazingMany(10_000 + k, BULK));
  const one = await rate(many.length * BULK, async () => {
    for (const one of many) await peer.append(one);
  });
  const read = await rate(some.length + many.length * BULK, () => peer.read());
  return { single, bulk: Number.NaN, large: one, waiting: Number.NaN, read };
}

function counted(count: number): void {
  if (count !== ALL) throw new Error(`read ${count} entries of ${ALL}`);
}

function linesOf({ process, thread, bare, peer }: Turns): Line[] {
  const of = (turns: readonly Rates[], what: What) => turns.map((turn) => turn[what]);
  const beside = (what: What, turns: readonly Rates[], words: string): Line => {
    const ours = of(turns, what);
    const loop = against(ours, of(bare, what));
    const other = against(ours, of(peer, what));
    const reached = loop.ratio >= 0.6;
    return {
      what: words,
      ours: median(ours),
      bare: loop,
      peer: Number.isNaN(other.rate) ? undefined : other,
      aim: '0.6 of bare',
      reached,
    };
  };
  const together = (turns: readonly Rates[], where: string): Line => {
    const times = median(turns.map((turn) => turn.waiting / turn.single));
    return {
      what: `append, 64 waiting at once, ${where}: ${times.toFixed(1)} times one at a time`,
      ours: median(of(turns, 'waiting')),
      aim: '5 times one at a time',
      reached: times >= 5,
    };
  };
  return [
    beside('single', process, 'append one at a time, in process'),
    beside('single', thread, 'append one at a time, on a thread'),
    beside('bulk', process, 'append 1,000 commands at a time, in process'),
    beside('bulk', thread, 'append 1,000 commands at a time, on a thread'),
    beside('large', process, 'append one command of 1,000 entries, in process'),
    beside('large', thread, 'append one command of 1,000 entries, on a thread'),
    together(process, 'in process'),
    together(thread, 'on a thread'),
    beside('read', thread, 'read all, 1,000 at a time'),
  ];
}
