import { describe, expect, test } from 'vitest';
import { chanceSaid, saidOf } from '../../../plugins/defect-rates/wording.ts';
import { between, listed, percent } from '../../../server/contract/reports/words.ts';

describe('a rate in words', () => {
  test('is the count and what is believable', () => {
    const range = { low: 0.16096, high: 0.46592 };
    expect(saidOf({ affected: 9, pieces: 31, firings: 8, believable: range })).toBe(
      '9 of 31; between 16 % and 47 % is believable',
    );
    expect(saidOf({ affected: 9, pieces: 31, firings: 4, believable: range })).toMatch(
      /, from few firings \(4\)$/,
    );
    expect(saidOf({ affected: 9, pieces: 31, firings: 1, believable: range })).toMatch(
      /, were that one firing like any other$/,
    );
  });

  test('is never 0 or 100 in a hundred where it is not', () => {
    expect([0, 0.0001, 0.004, 0.16, 0.996, 0.99999, 1].map(percent)).toEqual([
      '0',
      '0.1',
      '0.4',
      '16',
      '99.6',
      '99.9',
      '100',
    ]);
    expect(between({ low: 0, high: 1 })).toBe('between 0 % and 100 % is believable');
  });

  test('has its chance rounded, and names set in a row', () => {
    expect([null, 5e-9, 0.0221, 0.1328].map(chanceSaid)).toEqual(['', 'under 0.001', '0.022', '0.13']);
    expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map(listed)).toEqual(['', 'a', 'a and b', 'a, b and c']);
  });
});
