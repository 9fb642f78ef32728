/** What takes the place of an order once the user has decided. */
import type { Entry } from '../../server/contract/entry.ts';
import { newId } from '../api/ids.ts';
import { heard } from '../api/reach.ts';
import type { NewUnsent, Unsent } from '../outbox/unsent.ts';

type Change = Partial<Pick<NewUnsent, 'input' | 'happenedAt' | 'sentence'>>;

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
