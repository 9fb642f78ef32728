/** What of an entry can be set right before it is sent anew. */
import { expect, test } from 'vitest';
import { complete, correctable, corrected, filled } from '../../web/waiting/correctable.ts';

const fields = (command: string, input: object) =>
  correctable(command, complete(command, input)).map(({ place, as }) => `${place.join('.')} ${as}`);

test('of a fault: the piece, what it is, where, on how many', () => {
  const fault = { piece: 'jug-0001', kind: 'runs', count: 2, firing: 'G1' };
  expect(fields('fault.find', fault)).toEqual(['zone zone', 'piece piece', 'kind fault', 'count count']);
});

test('of a grade: all three counts, also those that were left out, and the price', () => {
  const grade = { piece: 'jug-0001', first: 2, price: { amount: 2_000, currency: 'GBP' } };
  expect(fields('piece.grade', grade)).toEqual([
    'first count',
    'second count',
    'waster count',
    'piece piece',
    'price money',
  ]);
});

test('of a lot that was looked over: every part by itself', () => {
  const parts = [
    { count: 4, grade: 'first' },
    { count: 2, grade: 'second', faults: [{ kind: 'runs', zone: 'foot' }], repair: 'grind' },
  ];
  expect(fields('piece.look-over', { piece: 'lot-0001', firing: 'G1', parts })).toEqual([
    'piece piece',
    'parts.0.count count',
    'parts.0.grade grade',
    'parts.1.count count',
    'parts.1.grade grade',
    'parts.1.faults.0.kind fault',
    'parts.1.faults.0.zone zone',
    'parts.1.repair repair',
  ]);
  const input = corrected({ piece: 'lot-0001', parts }, ['parts', 1, 'faults', 0, 'kind'], 'crazing');
  expect(input).toMatchObject({ parts: [parts[0], { faults: [{ kind: 'crazing', zone: 'foot' }] }] });
  expect(parts[1]!.faults![0]!.kind).toBe('runs');
});

test('whose it is, and what a firing is called in the log, are not among it', () => {
  const begin = {
    piece: 'jug-0001',
    owner: { kind: 'student', person: 'ida' },
    form: 'jug',
    clay: 'fell-white',
  };
  expect(fields('piece.begin', begin)).toEqual(['form words', 'clay clay']);
});

test('a choice that is left empty is not sent', () => {
  const input = corrected({ kind: 'runs', zone: 'foot', parts: [{ zone: '' }] }, ['zone'], '');
  expect(filled(input)).toEqual({ kind: 'runs', parts: [{}] });
});
