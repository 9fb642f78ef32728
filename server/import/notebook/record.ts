/** Recording what the rows say, all of them together in the order it happened. */
import type { Host, Order, Outcome, Progress } from '../../host/host.ts';
import type { Bad } from '../records.ts';
import { shortened } from '../records.ts';
import type { Amendment, Fresh } from './earlier.ts';
import type { FiringStep } from './kilns.ts';
import type { Column } from './read.ts';

export type By = Pick<Order, 'who' | 'device'>;

export interface Tally {
  /** Entries. */
  recorded: number;
  /** Steps that were recorded before. */
  repeated: number;
  readonly bad: Bad[];
}

/** One step's place among all: steps themselves are made again group by group, to hold few at a time. */
interface Ref {
  readonly day: string;
  readonly rank: number;
  /** Index of the row, or of the firing's step. */
  readonly row?: number;
  readonly at: number;
}

/** Where a refused order stands in the file. */
interface Source {
  readonly line: number;
  readonly column: Column;
  readonly row?: number;
}

const GROUP = 2_000;
/** After every day: for what has no date, which is noted as of now. */
const NOW = '9999-12-31';

export async function recordRows(
  host: Host,
  rows: readonly Amendment[],
  firings: readonly FiringStep[],
  by: By,
  progress?: Progress,
): Promise<Tally> {
  const refs = inOrder(rows, firings);
  const tally: Tally = { recorded: 0, repeated: 0, bad: [] };
  const refused = new Set<number>();
  for (let from = 0; from < refs.length; from += GROUP) {
    const group = refs.slice(from, from + GROUP).filter(({ row }) => row === undefined || !refused.has(row));
    const { orders, sources } = ordersOf(group, rows, firings, by);
    take(tally, await host.recordAll(orders), sources, refused);
    progress?.(Math.min(from + GROUP, refs.length), refs.length);
  }
  return tally;
}

/** What recording them would come to. `before`: orders that must come first. */
export async function foreseeRows(
  host: Host,
  rows: readonly Amendment[],
  firings: readonly FiringStep[],
  before: readonly Order[],
  by: By,
  progress?: Progress,
): Promise<Tally> {
  const tally: Tally = { recorded: 0, repeated: 0, bad: [] };
  for (let from = 0; from < rows.length; from += GROUP) {
    const some = rows.slice(from, from + GROUP);
    const through = new Set(some.flatMap(({ planned }) => [planned.bisque, planned.glaze]));
    const theirs = firings.filter(({ firing }) => through.has(firing));
    const { orders, sources } = ordersOf(inOrder(some, theirs), some, theirs, by);
    const outcomes = await host.foresee([...before, ...orders]);
    take(tally, outcomes.slice(before.length), sources, new Set());
    progress?.(Math.min(from + GROUP, rows.length), rows.length);
  }
  return tally;
}

/** By day, then as a piece goes through the studio, then as the file has it. */
function inOrder(rows: readonly Amendment[], firings: readonly FiringStep[]): Ref[] {
  const refs: Ref[] = firings.map(({ rank, order }, at) => ({ day: order.happenedAt ?? NOW, rank, at }));
  rows.forEach((one, row) => {
    one.fresh().forEach(({ step }, at) => {
      refs.push({ day: step.day ?? NOW, rank: step.rank, row, at });
    });
  });
  return refs.sort((a, b) =>
    a.day < b.day ? -1 : a.day > b.day ? 1 : a.rank - b.rank || (a.row ?? 0) - (b.row ?? 0) || a.at - b.at,
  );
}

function ordersOf(
  refs: readonly Ref[],
  rows: readonly Amendment[],
  firings: readonly FiringStep[],
  by: By,
): { orders: Order[]; sources: Source[] } {
  const made = new Map<number, Fresh[]>();
  const freshOf = (row: number): Fresh[] => {
    const there = made.get(row) ?? rows[row]!.fresh();
    made.set(row, there);
    return there;
  };
  const orders: Order[] = [];
  const sources: Source[] = [];
  for (const { row, at } of refs) {
    if (row === undefined) {
      const { firing, order } = firings[at]!;
      orders.push({ ...order, ...by });
      sources.push({ line: firing.line, column: firing.role === 'bisque' ? 'bisque_fired' : 'glaze_fired' });
      continue;
    }
    const { step, id } = freshOf(row)[at]!;
    const { command, input, day } = step;
    orders.push({ id, command, input, ...(day === undefined ? {} : { happenedAt: day }), ...by });
    sources.push({ line: rows[row]!.planned.row.line, column: step.column, row });
  }
  return { orders, sources };
}

/** The first refusal of a row tells why; its other steps only follow from it. */
function take(
  tally: Tally,
  outcomes: readonly Outcome[],
  sources: readonly Source[],
  refused: Set<number>,
): void {
  outcomes.forEach((outcome, at) => {
    if (outcome.outcome === 'recorded') tally.recorded += outcome.last - outcome.first + 1;
    if (outcome.outcome === 'repeated' || outcome.outcome === 'unchanged') tally.repeated++;
    if (outcome.outcome !== 'refused') return;
    const { line, column, row } = sources[at]!;
    /* A firing whose rows were refused has nothing in it: that follows from them too. */
    if (row === undefined ? outcome.refusal.code === 'no-such-firing' || refused.size > 0 : refused.has(row))
      return;
    if (row !== undefined) refused.add(row);
    tally.bad.push({
      line,
      column,
      found: shortened(outcome.refusal.code.replaceAll('-', ' ')),
      expected: outcome.refusal.sentence,
    });
  });
}
