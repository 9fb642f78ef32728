/** What the user decides on is offered as what both devices said. */
import { expect, test } from 'vitest';
import type { Entry } from '../../server/contract/entry.ts';
import type { Refused } from '../../web/outbox/unsent.ts';
import { partsIn } from '../../web/waiting/decisions.ts';

const entry = (name: string, data: object) => ({ name, data }) as unknown as Entry;
const refused = (...meanwhile: Entry[]): { refused: Refused } => ({
  refused: { refused: true, code: 'said-otherwise', sentence: '', meanwhile },
});
const graded = (piece: string, counts: object) =>
  entry('piece.graded', { piece, first: 0, second: 0, waster: 0, ...counts });

test('a lot that was graded by mixed counts meanwhile has the parts to choose from', () => {
  const parted = refused(
    entry('lot.split', { piece: 'lot-0001', into: [{ piece: 'lot-0001.a', count: 3, faults: [] }] }),
    graded('lot-0001', { first: 9 }),
    graded('lot-0001.a', { second: 3 }),
  );
  expect(partsIn(parted)).toEqual([
    { piece: 'lot-0001', count: 9, grade: 'first' },
    { piece: 'lot-0001.a', count: 3, grade: 'second' },
  ]);
});

test('a lot of one grade has none', () => {
  expect(partsIn(refused(graded('lot-0001', { second: 3 })))).toEqual([]);
  expect(partsIn({})).toEqual([]);
});
