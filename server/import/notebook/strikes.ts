/** Striking out what an amended notebook no longer says, with what rests on it. */
import type { Bad } from '../records.ts';
import { shortened } from '../records.ts';
import type { Host, Order } from '../../host/host.ts';
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
      expected: `nothing noted by hand since that rests on it: ${refused}`,
    }));
}

function* groups(amendments: readonly Amendment[]): Generator<Amendment[]> {
  let group: Amendment[] = [];
  let seqs = 0;
  for (const one of amendments) {
    const { length } = one.strikes();
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

async function strikeGroup(host: Host, group: readonly Amendment[], rows: Rows, by: Pick<Order, 'who' | 'device'>): Promise<void> {
  /** Of firings that are left with nothing in them. */
  const alongside = new Set<number>();
  for (;;) {
    const going = group.filter(({ refused }) => refused === undefined);
    const seqs = [...new Set([...going.flatMap((one) => one.strikes()), ...alongside])].sort((a, b) => a - b);
    if (seqs.length === 0) return;
    const { count } = await host.log.head();
    const id = commandId({ of: identity('strike', count), step: 'strike', generation: 0, content: contentOf(seqs, count) });
    const outcome = await host.record({ ...by, id, command: 'entry.strike', input: { seqs, why: WHY } });
    if (outcome.outcome !== 'refused') return;
    const others = outcome.refusal.others ?? [];
    const before = seqs.length;
    let changed = false;
    for (const { seq, why } of others) changed = (await settle(host, seq, why, rows, alongside)) || changed;
    if (changed && (before !== seqs.length || others.length > 0)) continue;
    for (const one of going) one.refused = shortened(outcome.refusal.sentence);
    return;
  }
}

/** Decides about one entry that rests on those to be struck; true when something new came of it. */
async function settle(host: Host, seq: number, why: string, { byRow, byLot }: Rows, alongside: Set<number>): Promise<boolean> {
  const [entry] = await host.log.read(seq - 1, 1);
  const id = readCommandId(entry!.command);
  const row = id === undefined ? undefined : byRow.get(id.of);
  if (row?.anew(seq)) return true;
  if (id?.step === 'light' || id?.step === 'end' || id?.step === 'draw') {
    if (alongside.has(seq)) return false;
    alongside.add(seq);
    return true;
  }
  let changed = false;
  for (const stream of entry!.streams) {
    const hit = byLot.get(stream);
    if (hit === undefined || hit.refused !== undefined) continue;
    hit.refused = shortened(why);
    changed = true;
  }
  return changed;
}
