import { expect, test } from 'vitest';
import type { Order, Outcome } from '../../server/host/host.ts';
import { recordInTurn } from '../../server/host/in-turn.ts';

const ids = (...names: string[]) =>
  names.map((name) => ({ id: name, command: 'x', input: {}, who: 'a', device: 'b' }));

function answering(refused: readonly string[]) {
  const runs: string[][] = [];
  const recordAll = async (orders: readonly Order[]): Promise<Outcome[]> => {
    runs.push(orders.map(({ id }) => id));
    return orders.map(({ id }) =>
      refused.includes(id)
        ? { outcome: 'refused', id, refusal: { refused: true, code: 'no', sentence: 'No.' } }
        : { outcome: 'recorded', id, first: 1, last: 1 },
    );
  };
  return { runs, recordAll };
}
const said = (outcomes: readonly { outcome: string }[]) => outcomes.map(({ outcome }) => outcome);

test('orders that need nothing go in together', async () => {
  const { runs, recordAll } = answering([]);
  await recordInTurn(ids('a', 'b', 'c'), recordAll);
  expect(runs).toEqual([['a', 'b', 'c']]);
});

test('what needs a refused order waits with it, and so does what needs that', async () => {
  const [a, b, c, d] = ids('a', 'b', 'c', 'd');
  const { runs, recordAll } = answering(['a']);
  const outcomes = await recordInTurn(
    [a!, { ...b!, needs: ['a'] }, { ...c!, needs: ['b'] }, { ...d!, needs: [] }],
    recordAll,
  );
  expect(said(outcomes)).toEqual(['refused', 'held', 'held', 'recorded']);
  expect(outcomes[2]).toEqual({ outcome: 'held', id: 'c', needs: 'b' });
  expect(runs.flat()).toEqual(['a', 'd']);
});

test('what needs an order that was taken follows it', async () => {
  const [a, b] = ids('a', 'b');
  const { runs, recordAll } = answering([]);
  const outcomes = await recordInTurn([a!, { ...b!, needs: ['a', 'sent-earlier'] }], recordAll);
  expect(said(outcomes)).toEqual(['recorded', 'recorded']);
  expect(runs).toEqual([['a'], ['b']]);
});
