/** What a potter writes in a cell, and what is said when it does not fit. */
import { describe, expect, test } from 'vitest';
import { readCount, readName, readNamed, readText } from '../../server/contract/cells/cell.ts';
import { readDay } from '../../server/contract/cells/dates.ts';
import { currencySigns, readMoney } from '../../server/contract/cells/money.ts';
import { handleOf } from '../../server/contract/studio/values.ts';
import { FAULTS, REPAIRS, ZONES } from '../../server/contract/trade.ts';
import { piecesWith, readFaults } from '../../server/import/notebook/faults.ts';
import { readGlazes } from '../../server/import/notebook/glazes.ts';
import { readGrade } from '../../server/import/notebook/grade.ts';
import { readLeft } from '../../server/import/notebook/left.ts';
import { readOwner } from '../../server/import/notebook/owner.ts';
import type { KnownWords } from '../../server/import/notebook/words.ts';

const ids = (words: readonly string[], own: Record<string, string> = {}): Map<string, string> =>
  new Map([
    ...words.map((word) => [word, word] as const),
    ...Object.entries(own).map(([id, name]) => [handleOf(name), id] as const),
  ]);
const words: KnownWords = {
  fault: ids(FAULTS, { spit: 'Spit-out' }),
  repair: ids(REPAIRS),
  zone: ids(ZONES),
};
const TODAY = '2026-11-25';

describe('a date', () => {
  test('is a day of ISO 8601', () => {
    expect(readDay('2026-05-01', TODAY)).toEqual({ value: '2026-05-01' });
    expect(readDay('2024-02-29', TODAY)).toEqual({ value: '2024-02-29' });
  });

  test('may have the midnight of a spreadsheet behind it', () => {
    expect(readDay('2026-05-01 00:00:00', TODAY)).toEqual({ value: '2026-05-01' });
    expect(readDay('2026-05-01T00:00', TODAY)).toEqual({ value: '2026-05-01' });
  });

  test.each(['31/02', '1/2/26', '01.05.2026', '2026-5-1', '2026-05', 'May', '20260501', '2026-05-01 10:15'])(
    'written as %s is named, with a date as it should be',
    (found) => {
      expect(readDay(found, TODAY)).toEqual({ found, expected: 'a date like 2026-05-01' });
    },
  );

  test.each(['2026-02-31', '2025-02-29', '2026-13-01', '2026-00-10', '2026-04-00'])(
    '%s is no day',
    (found) => {
      expect(readDay(found, TODAY)).toEqual({
        found,
        expected: 'a date like 2026-05-01; there is no such day',
      });
    },
  );

  test('that is still to come is named', () => {
    expect(readDay('2062-05-01', TODAY)).toEqual({
      found: '2062-05-01',
      expected: 'a day that has been: today is 2026-11-25',
    });
    expect(readDay(TODAY, TODAY)).toEqual({ value: TODAY });
  });

  test('with a digit missing in the year is named', () => {
    expect(readDay('0206-05-01', TODAY)).toMatchObject({ expected: 'a date like 2026-05-01, from 1900 on' });
  });
});

describe('a count', () => {
  test('is a whole number from 1', () => {
    expect(readCount('12')).toEqual({ value: 12 });
    expect(readCount('100000')).toEqual({ value: 100_000 });
  });

  test.each(['0', '-3', '2.5', '1e3', 'twelve', '12 pcs', '100001', '٣', ''])('of “%s” is named', (found) => {
    expect(readCount(found)).toEqual({ found, expected: 'a whole number of pieces, from 1 to 100,000' });
  });
});

describe('a name', () => {
  test('is on one line, its letters composed', () => {
    expect(readName('Fell\nWhite  stoneware')).toEqual({ value: 'Fell White stoneware' });
    expect(readName('e\u0301tang')).toEqual({ value: '\u00e9tang' });
  });

  test('of a material has a letter or digit, in any script', () => {
    expect(readNamed('釉薬')).toEqual({ value: '釉薬' });
    expect(readNamed('???')).toEqual({ found: '???', expected: 'a name with a letter or a digit in it' });
  });

  test('with a NUL character or half a surrogate pair is named', () => {
    expect(readName('a\u0000b')).toEqual({
      found: 'a[U+0000]b',
      expected: 'text without control characters',
    });
    expect(readName('a\ud800')).toEqual({ found: 'a[U+D800]', expected: 'text without control characters' });
    expect(readName('🏺 jug')).toEqual({ value: '🏺 jug' });
  });

  test('that is too long is named', () => {
    expect(readName('x'.repeat(121))).toMatchObject({ expected: 'at most 120 characters; this has 121' });
    expect(readText('line one\n\tline two', 5_000)).toEqual({ value: 'line one\n\tline two' });
  });
});

describe('glazes', () => {
  test('by zone, the first layer first, with coats', () => {
    expect(readGlazes('outside: Marram Green > Cuttle White x2; inside: Gannet Grey', words)).toEqual({
      value: [
        {
          zone: 'outside',
          layers: [
            { glaze: 'Marram Green', coats: 1 },
            { glaze: 'Cuttle White', coats: 2 },
          ],
        },
        { zone: 'inside', layers: [{ glaze: 'Gannet Grey', coats: 1 }] },
      ],
    });
  });

  test('without a zone', () => {
    expect(readGlazes('Clear Tin ×3', words)).toEqual({
      value: [{ layers: [{ glaze: 'Clear Tin', coats: 3 }] }],
    });
  });

  test('on a zone that is not known list those that are', () => {
    expect(readGlazes('lip: Gannet Grey', words)).toEqual({
      found: 'lip',
      expected: 'a zone: one of inside, outside, rim, foot, base, handle, lid, detail',
    });
  });

  test.each(['outside:', 'outside: A >', '> A', ';'])('“%s” is no list of glazes', (cell) => {
    expect(readGlazes(cell, words)).toMatchObject({
      expected: expect.stringContaining('glazes like outside: Marram Green'),
    });
  });

  test.each(['A x0', 'A x21', 'A x-2', 'A x1.5'])('“%s” has no number of coats', (cell) => {
    expect(readGlazes(cell, words)).toEqual({
      found: cell,
      expected: 'a number of coats from 1 to 20, like x2',
    });
  });
});

describe('faults', () => {
  test('by kind, zone and number of pieces', () => {
    expect(readFaults('pinholes@inside; runs@foot x3; crack', 12, words)).toEqual({
      value: [
        { kind: 'pinholes', zone: 'inside' },
        { kind: 'runs', zone: 'foot', count: 3 },
        { kind: 'crack' },
      ],
    });
  });

  test('may be written in capitals and with spaces, and be the studio’s own', () => {
    expect(readFaults('Stilt marks @ Foot x2; spit-out', 12, words)).toEqual({
      value: [{ kind: 'stilt-marks', zone: 'foot', count: 2 }, { kind: 'spit' }],
    });
  });

  test('that are not known list those that are', () => {
    expect(readFaults('wobbly', 1, words)).toEqual({
      found: 'wobbly',
      expected: `a fault: one of ${[...FAULTS, 'spit'].join(', ')}`,
    });
    expect(readFaults('runs@lip', 1, words)).toMatchObject({
      found: 'lip',
      expected: expect.stringMatching(/^a zone: one of inside/),
    });
  });

  test('on more pieces than there are, or none, are named', () => {
    expect(readFaults('runs x4', 3, words)).toEqual({
      found: 'runs x4',
      expected: 'at most 3, as the lot has 3 pieces',
    });
    expect(readFaults('runs x0', 3, words)).toMatchObject({ found: 'runs x0' });
    expect(readFaults('runs x-1', 3, words)).toMatchObject({ found: 'runs x-1' });
  });

  test('without a number are on all seconds and wasters', () => {
    expect(piecesWith({ kind: 'runs' }, 12, { first: 9, second: 2, waster: 1 })).toBe(3);
    expect(piecesWith({ kind: 'runs', count: 5 }, 12, { first: 9, second: 2, waster: 1 })).toBe(5);
    expect(piecesWith({ kind: 'runs' }, 12, { first: 12, second: 0, waster: 0 })).toBe(12);
    expect(piecesWith({ kind: 'runs' }, 12, undefined)).toBe(12);
  });
});

describe('a grade', () => {
  test('is a word for the whole lot, or counts', () => {
    expect(readGrade('second', 1)).toEqual({ value: { first: 0, second: 1, waster: 0 } });
    expect(readGrade('First', 12)).toEqual({ value: { first: 12, second: 0, waster: 0 } });
    expect(readGrade('first 9, second 2, waster 1', 12)).toEqual({
      value: { first: 9, second: 2, waster: 1 },
    });
    expect(readGrade('wasters 1; firsts 11', 12)).toEqual({ value: { first: 11, second: 0, waster: 1 } });
  });

  test('whose counts do not add up to the lot is named', () => {
    expect(readGrade('first 9, second 2', 12)).toEqual({
      found: 'first 9, second 2',
      expected: 'grades that add up to the lot: 11 are graded and the lot has 12',
    });
  });

  test.each(['third', 'first, second', 'first 6, first 6', 'first -9, second 21', 'first 1.5', '12'])(
    '“%s” is named',
    (cell) => {
      expect(readGrade(cell, 12)).toMatchObject({ found: cell });
    },
  );
});

describe('a price', () => {
  /* Digits behind the decimal sign: ISO 4217, as Intl has them. */
  const pounds = currencySigns('GBP');
  const yen = currencySigns('JPY');
  const dinars = currencySigns('KWD');
  const euros = currencySigns('EUR');

  test.each([
    ['24', 2400],
    ['24.5', 2450],
    ['£24.50', 2450],
    ['24,50', 2450],
    ['GBP 24', 2400],
    ['24 gbp', 2400],
    ['1,200', 120_000],
    ['1.200,00', 120_000],
    ['£1,234,567.89', 123_456_789],
    ['1 200', 120_000],
    ['0', 0],
    ['0.05', 5],
  ])('of %s is %i pence', (cell, value) => {
    expect(readMoney(cell, pounds)).toEqual({ value });
  });

  test('has no decimals in yen and three in Kuwaiti dinars', () => {
    expect(readMoney('¥2,400', yen)).toEqual({ value: 2400 });
    expect(readMoney('2400', yen)).toEqual({ value: 2400 });
    expect(readMoney('2400.50', yen)).toEqual({ found: '2400.50', expected: 'a price like 2400 in JPY' });
    expect(readMoney('1.250', dinars)).toEqual({ value: 1250 });
    expect(readMoney('KWD 12.5', dinars)).toEqual({ value: 12_500 });
    expect(readMoney('1,250.500', dinars)).toEqual({ value: 1_250_500 });
    expect(readMoney('24,00 €', euros)).toEqual({ value: 2400 });
  });

  test.each([
    '-5',
    '$24',
    '24 EUR',
    'twenty',
    '24.555',
    '1,23,456',
    '12,3456',
    '1.2.3',
    '',
    '£',
    '9999999999999',
  ])('of “%s” is named', (cell) => {
    expect(readMoney(cell, pounds)).toEqual({ found: cell, expected: 'a price like 24.00 in GBP' });
  });
});

describe('an owner', () => {
  test('is the studio, or a person in a role', () => {
    expect(readOwner('own')).toEqual({ value: { kind: 'own' } });
    expect(readOwner('commission:Björk Æ. O’Neil')).toEqual({
      value: { kind: 'commission', name: 'Björk Æ. O’Neil' },
    });
    expect(readOwner('Student: 花子')).toEqual({ value: { kind: 'student', name: '花子' } });
    expect(readOwner('hire:A: B')).toEqual({ value: { kind: 'hire', name: 'A: B' } });
  });

  test.each(['commission:', 'friend:Ann', 'Ann'])('“%s” is named', (cell) => {
    expect(readOwner(cell)).toEqual({
      found: cell,
      expected: 'own, or commission:, student: or hire: and a name',
    });
  });
});

describe('how it left', () => {
  test('with the day when it is known', () => {
    expect(readLeft('sold 2026-05-01', TODAY)).toEqual({ value: { how: 'sold', day: '2026-05-01' } });
    expect(readLeft('Broken up', TODAY)).toEqual({ value: { how: 'broken-up' } });
    expect(readLeft('broken-up 2026-05-01', TODAY)).toEqual({
      value: { how: 'broken-up', day: '2026-05-01' },
    });
  });

  test('in another manner lists those there are; a bad day is named by itself', () => {
    expect(readLeft('vanished', TODAY)).toEqual({
      found: 'vanished',
      expected:
        'sold, collected, posted, given, broken-up, lost, and the date if it is known, like sold 2026-05-01',
    });
    expect(readLeft('sold 31/02', TODAY)).toEqual({ found: '31/02', expected: 'a date like 2026-05-01' });
  });
});
