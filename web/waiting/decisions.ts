/** What takes the place of an order once the user has decided. */
import type { Entry } from '../../server/contract/entry.ts';
import { GRADES, type Grade } from '../../server/contract/trade.ts';
import { newId } from '../api/ids.ts';
import { heard } from '../api/reach.ts';
import type { NewUnsent, Unsent } from '../outbox/unsent.ts';

type Change = Partial<Pick<NewUnsent, 'input' | 'happenedAt' | 'clock' | 'sentence'>>;

/**
 * The order anew, knowing of all there is; before it, the striking out of what another device recorded
 * where that was wrong. It happened when it was first noted.
 */
export function newOrders(entry: Unsent, wrong: readonly Entry[], change: Change = {}): NewUnsent[] {
  const { n: _n, state: _state, refused, refusedAt: _at, failures: _failures, why: _why, ...order } = entry;
  const newest = Math.max(0, ...(refused?.meanwhile ?? []).map(({ seq }) => seq));
  const seen = Math.max(heard.peek() ?? 0, newest);
  const strikes = [...new Set(wrong.map(({ command }) => command))].map(
    (command): NewUnsent => ({
      ...order,
      id: newId(),
      command: 'entry.strike',
      input: { command },
      happenedAt: undefined,
      seen,
      files: undefined,
    }),
  );
  const needs = [...entry.needs, ...strikes.map(({ id }) => id)];
  return [...strikes.reverse(), { ...order, ...change, id: newId(), seen, needs }];
}

/** A part of the lot that an order speaks of, as another device graded it. */
export interface Part {
  readonly piece: string;
  readonly count: number;
  readonly grade: Grade;
}

interface Graded extends Readonly<Record<Grade, number>> {
  readonly piece: string;
}

/** The parts that the lot went into meanwhile, where it did. */
export function partsIn({ refused }: Pick<Unsent, 'refused'>): readonly Part[] {
  const others = refused?.meanwhile ?? [];
  if (!others.some(({ name }) => name === 'lot.split')) return [];
  return others
    .filter(({ name }) => name === 'piece.graded')
    .map(({ data }) => data as unknown as Graded)
    .flatMap((graded) =>
      GRADES.filter((grade) => graded[grade] > 0).map((grade) => ({
        piece: graded.piece,
        count: graded[grade],
        grade,
      })),
    );
}
