/** Recording what the rows say, all of them together in the order it happened. */
import type { Host, Order, Outcome, Progress } from '../../host/host.ts';
import type { Bad } from '../records.ts';
import { shortened } from '../records.ts';
import type { Amendment, Fresh } from './earlier.ts';
import type { FiringStep } from './kilns.ts';
import type { Column } from './read.ts';
import type { PlannedRow, Step } from './steps.ts';

export type By = Pick<Order, 'who' | 'device'>;

export interface Tally {
  /** Entries. */
  recorded: number;
  /** Steps that were recorded before. */
  repeated: number;
  readonly bad: Bad[];
}

/** One step's place among all: steps themselves are made when they are due, to hold few at a time. */
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
  readonly found: string;
  readonly row?: number;
}

const GROUP = 10_000;
const MOST_ON_THE_WAY = 20_000;
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
  const fresh = new FreshSteps(rows, refs);
  const tally: Tally = { recorded: 0, repeated: 0, bad: [] };
  const refused = new Set<number>();
  for (let from = 0; from < refs.length; from += GROUP) {
    const group = refs.slice(from, from + GROUP).filter(({ row }) => row === undefined || !refused.has(row));
    const { orders, sources } = ordersOf(group, fresh, firings, by);
    const within = (done: number) => progress?.(Math.min(from + done, refs.length), refs.length);
    take(tally, await host.recordAll(orders, within), sources, refused);
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
    const refs = inOrder(some, theirs);
    const { orders, sources } = ordersOf(refs, new FreshSteps(some, refs), theirs, by);
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

/** What the row says there, as far as it is one thing. */
function foundIn({ row }: PlannedRow, { column, firing }: Step): string {
  if (firing !== undefined) return firing.label;
  if (column === 'piece') return row.piece ?? '';
  if (column === 'made') return row.made ?? '';
  if (column === 'left') return row.left!.how;
  return column === 'repair' ? row.repairs.join('; ') : '';
}

/** The steps of the rows that are on their way: held from a row's first step to its last. */
class FreshSteps {
  readonly #made = new Map<number, Fresh[]>();
  /** How many steps of each row are still to come. */
  readonly #ahead: Uint16Array;

  constructor(
    private readonly rows: readonly Amendment[],
    refs: readonly Ref[],
  ) {
    this.#ahead = new Uint16Array(rows.length);
    for (const { row } of refs) if (row !== undefined) this.#ahead[row]!++;
  }

  take(row: number, at: number): Fresh & { readonly planned: PlannedRow } {
    const one = this.rows[row]!;
    const there = this.#made.get(row) ?? one.fresh();
    this.#ahead[row]!--;
    if (this.#ahead[row] === 0) this.#made.delete(row);
    else if (this.#made.size < MOST_ON_THE_WAY) this.#made.set(row, there);
    return { ...there[at]!, planned: one.planned };
  }
}

function ordersOf(
  refs: readonly Ref[],
  fresh: FreshSteps,
  firings: readonly FiringStep[],
  by: By,
): { orders: Order[]; sources: Source[] } {
  const orders: Order[] = [];
  const sources: Source[] = [];
  for (const { row, at } of refs) {
    if (row === undefined) {
      const { firing, order } = firings[at]!;
      orders.push({ ...order, ...by });
      sources.push({
        line: firing.line,
        column: firing.role === 'bisque' ? 'bisque_fired' : 'glaze_fired',
        found: firing.label,
      });
      continue;
    }
    const { step, id, planned } = fresh.take(row, at);
    const { line } = planned.row;
    const { command, input, day } = step;
    orders.push({ id, command, input, ...(day === undefined ? {} : { happenedAt: day }), ...by });
    sources.push({ line, column: step.column, found: foundIn(planned, step), row });
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
    const { line, column, found, row } = sources[at]!;
    /* A firing whose rows were refused has nothing in it: that follows from them too. */
    if (row === undefined ? outcome.refusal.code === 'no-such-firing' || refused.size > 0 : refused.has(row))
      return;
    if (row !== undefined) refused.add(row);
    tally.bad.push({
      line,
      column,
      found: shortened(found),
      expected: outcome.refusal.sentence,
    });
  });
}
