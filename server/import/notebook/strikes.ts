/** Striking out what an amended notebook no longer says, with what rests on it. */

import type { Host, Order } from '../../host/host.ts';
import type { Bad } from '../records.ts';
import { shortened } from '../records.ts';
import type { Amendment } from './earlier.ts';
import { commandId, contentOf, identity, readCommandId } from './ids.ts';

const WHY = 'amended notebook';
/** Entries struck out by one command. */
const MOST = 400;

/**
 * Strikes for all amendments, in groups. What rests on a struck entry and was imported too is struck with
 * it and recorded anew; where an entry made by hand rests on it, the row is left as it is and named.
 */
export async function strikeAmended(
  host: Host,
  amendments: readonly Amendment[],
  by: Pick<Order, 'who' | 'device'>,
): Promise<Bad[]> {
  const byRow = new Map(amendments.map((one) => [one.planned.of, one]));
  const byLot = new Map(amendments.map((one) => [`piece:${one.planned.lot}`, one]));
  for (const group of groups(amendments)) await strikeGroup(host, group, { byRow, byLot }, by);
  return amendments
    .filter(({ refused }) => refused !== undefined)
    .map(({ planned, refused }) => ({
      line: planned.row.line,
      column: '',
      found: 'a change to what an earlier import recorded',
      expected: `nothing noted by hand that stands in its way: ${refused}`,
    }));
}

function* groups(amendments: readonly Amendment[]): Generator<Amendment[]> {
  let group: Amendment[] = [];
  let seqs = 0;
  for (const one of amendments) {
    const length = one.refused === undefined ? one.strikes().length : 0;
    if (length === 0) continue;
    if (seqs + length > MOST && group.length > 0) {
      yield group;
      group = [];
      seqs = 0;
    }
    group.push(one);
    seqs += length;
  }
  if (group.length > 0) yield group;
}

interface Rows {
  readonly byRow: ReadonlyMap<string, Amendment>;
  readonly byLot: ReadonlyMap<string, Amendment>;
}

async function strikeGroup(
  host: Host,
  group: readonly Amendment[],
  rows: Rows,
  by: Pick<Order, 'who' | 'device'>,
): Promise<void> {
  /** Of firings that are left with nothing in them. */
  const alongside = new Set<number>();
  let before = '';
  for (;;) {
    const going = group.filter(({ refused }) => refused === undefined);
    const seqs = [...new Set([...going.flatMap((one) => one.strikes()), ...alongside])].sort((a, b) => a - b);
    if (seqs.length === 0) return;
    const { count } = await host.log.head();
    const id = commandId({
      of: identity('strike', count),
      step: 'strike',
      generation: 0,
      content: contentOf(seqs, count),
    });
    const outcome = await host.record({ ...by, id, command: 'entry.strike', input: { seqs, why: WHY } });
    if (outcome.outcome !== 'refused') return;
    if (seqs.join() === before) return refuseAll(host, going, outcome.refusal.sentence, rows, by);
    before = seqs.join();
    for (const { seq, why } of outcome.refusal.others ?? []) await settle(host, seq, why, rows, alongside);
  }
}

/** Nothing tells which row of the group is in the way: each is tried by itself. */
async function refuseAll(
  host: Host,
  group: readonly Amendment[],
  sentence: string,
  rows: Rows,
  by: Pick<Order, 'who' | 'device'>,
): Promise<void> {
  if (group.length === 1) group[0]!.refused = shortened(sentence);
  else for (const one of group) await strikeGroup(host, [one], rows, by);
}

/** Decides about one entry that rests on those to be struck: with them, or they are not. */
async function settle(
  host: Host,
  seq: number,
  why: string,
  { byRow, byLot }: Rows,
  alongside: Set<number>,
): Promise<void> {
  const [entry] = await host.log.read(seq - 1, 1);
  const id = readCommandId(entry!.command);
  if (id !== undefined && byRow.get(id.of)?.anew(seq)) return;
  if (id?.step === 'light' || id?.step === 'end' || id?.step === 'draw') {
    alongside.add(seq);
    return;
  }
  for (const stream of entry!.streams) {
    const hit = byLot.get(stream);
    if (hit !== undefined) hit.refused ??= shortened(why);
  }
}
