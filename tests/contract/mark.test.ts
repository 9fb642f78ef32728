/** Foot marks. Weighted check sums over a prime field: common practice (as ISBN-10 over 11), no source for the alphabet. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkSymbol, MARK_SYMBOLS, markFor, readMark, TURNED } from '../../server/contract/mark.ts';

const SYMBOLS = [...MARK_SYMBOLS];
const numbers = new Map(SYMBOLS.map((symbol, index) => [symbol, index]));

/** The check said again in the test's own words: weights n to 1, the sum a multiple of 23. */
const addsUp = (mark: readonly number[]): boolean =>
  mark.reduce((sum, value, at) => sum + (mark.length - at) * value, 0) % 23 === 0;

/** Every mark of `length` symbols and a check, as values. */
function* everyMark(length: number): Generator<number[]> {
  const total = 23 ** length;
  for (let number = 0; number < total; number++) {
    const values: number[] = [];
    for (let at = 0, rest = number; at < length; at++, rest = Math.floor(rest / 23)) values.push(rest % 23);
    const sum = values.reduce((all, value, at) => all + (length + 1 - at) * value, 0);
    values.push((23 - (sum % 23)) % 23);
    yield values;
  }
}

describe('the symbols of a foot mark', () => {
  test('are 23, a prime number, each once', () => {
    expect(SYMBOLS).toHaveLength(23);
    expect(new Set(SYMBOLS).size).toBe(23);
  });

  test('leave out the look-alikes', () => {
    for (const lookAlike of '0O1IL5S2Z8BUG') expect(MARK_SYMBOLS).not.toContain(lookAlike);
  });
});

describe('the check symbol', () => {
  test('catches every wrong symbol in every mark of four and a check', () => {
    let slipped = 0;
    for (const mark of everyMark(4)) {
      if (!addsUp(mark)) slipped++;
      for (let at = 0; at < 5; at++) {
        const right = mark[at]!;
        for (let wrong = 0; wrong < 23; wrong++) {
          mark[at] = wrong;
          if (wrong !== right && addsUp(mark)) slipped++;
        }
        mark[at] = right;
      }
    }
    expect(slipped).toBe(0);
  }, 120_000);

  test('catches every swap of two symbols in every mark of four and a check, neighbours or not', () => {
    let slipped = 0;
    for (const mark of everyMark(4)) {
      for (let one = 0; one < 4; one++) {
        for (let other = one + 1; other < 5; other++) {
          if (mark[one] === mark[other]) continue;
          const swapped = [...mark];
          swapped[one] = mark[other]!;
          swapped[other] = mark[one]!;
          if (addsUp(swapped)) slipped++;
        }
      }
    }
    expect(slipped).toBe(0);
  }, 120_000);

  test('catches them in marks of five and a check too: every weight and every difference of weights is no multiple of 23', () => {
    /* The sum is linear: a wrong symbol changes it by weight × difference, a swap by difference of weights × difference. */
    const slipped: string[] = [];
    for (let difference = 1; difference < 23; difference++) {
      for (let at = 1; at <= 6; at++) {
        if ((at * difference) % 23 === 0) slipped.push(`weight ${at}`);
        for (let other = at + 1; other <= 6; other++) {
          if (((other - at) * difference) % 23 === 0) slipped.push(`swap ${at} ${other}`);
        }
      }
    }
    expect(slipped).toEqual([]);
  });

  test('is the one that the marks given by the studio end with', () => {
    fc.assert(
      fc.property(fc.uuid(), fc.nat({ max: 40 }), (command, attempt) => {
        const mark = markFor(command, attempt);
        expect(addsUp([...mark].map((symbol) => numbers.get(symbol)!))).toBe(true);
        expect(checkSymbol(mark.slice(0, -1))).toBe(mark.at(-1));
        expect(readMark(mark)).toEqual({ mark });
      }),
    );
  });
});

describe('a mark held upside down', () => {
  test('cannot be read as another mark: for all marks of four and five symbols and a check', () => {
    /* Only marks whose every symbol turns into a symbol could be; none of those is a mark. */
    const turning = Object.keys(TURNED);
    let tried = 0;
    let readable = 0;
    const grow = (symbols: string, length: number): void => {
      if (symbols.length === length) {
        const mark = symbols + checkSymbol(symbols);
        if (!(mark.at(-1)! in TURNED)) return;
        tried++;
        const turned = [...mark]
          .reverse()
          .map((symbol) => TURNED[symbol]!)
          .join('');
        if ('mark' in readMark(mark) && 'mark' in readMark(turned)) readable++;
        if ('mark' in readMark(mark)) readable++;
        return;
      }
      for (const symbol of turning) grow(symbols + symbol, length);
    };
    grow('', 4);
    grow('', 5);
    expect(tried).toBeGreaterThan(17 ** 4 / 2);
    expect(readable).toBe(0);
  }, 120_000);

  test('every mark given has a symbol that is none when turned', () => {
    fc.assert(
      fc.property(fc.uuid(), fc.nat({ max: 40 }), (command, attempt) => {
        expect([...markFor(command, attempt)].some((symbol) => !(symbol in TURNED))).toBe(true);
      }),
    );
  });
});

describe('a mark is given', () => {
  test('the same to the same command, and another at the next attempt', () => {
    const command = '01900000-0000-7000-8000-000000000001';
    expect(markFor(command, 0)).toBe(markFor(command, 0));
    expect(markFor(command, 1)).not.toBe(markFor(command, 0));
  });

  test('with four symbols and a check at first, with five and a check when those run out', () => {
    expect(markFor('01900000-0000-7000-8000-000000000001', 0)).toHaveLength(5);
    expect(markFor('01900000-0000-7000-8000-000000000001', 11)).toHaveLength(5);
    expect(markFor('01900000-0000-7000-8000-000000000001', 12)).toHaveLength(6);
  });

  test('to ten thousand pieces one after the other with few second attempts', () => {
    const given = new Set<string>();
    let attempts = 0;
    for (let piece = 0; piece < 10_000; piece++) {
      const command = `01900000-0000-7000-8000-${piece.toString(16).padStart(12, '0')}`;
      for (let attempt = 0; ; attempt++, attempts++) {
        const mark = markFor(command, attempt);
        if (given.has(mark)) continue;
        given.add(mark);
        break;
      }
    }
    /* At random, 10,000 out of about 218,000 meet about 10,000² / (2 × 218,000) = 230 times. */
    expect(attempts).toBeLessThan(460);
  });
});

describe('reading a mark off a pot', () => {
  const mark = markFor('01900000-0000-7000-8000-000000000001', 0);

  test('does not mind lower case, spaces and hyphens', () => {
    expect(readMark(` ${mark.slice(0, 2).toLowerCase()} ${mark.slice(2)} `)).toEqual({ mark });
    expect(readMark(`${mark.slice(0, 3)}-${mark.slice(3)}`)).toEqual({ mark });
  });

  test('says which symbol is none, and what it may be', () => {
    expect(readMark('AOFC7')).toEqual({ wrong: 'symbol', sentence: '‘O’ is in no foot mark. Is it Q or D?' });
    expect(readMark('A😀FC7')).toEqual({ wrong: 'symbol', sentence: '‘😀’ is in no foot mark.' });
  });

  test('says that symbols are missing', () => {
    expect(readMark('A7F')).toEqual({
      wrong: 'length',
      sentence: 'A foot mark has 5 or 6 symbols; this has 3.',
    });
    expect(readMark('')).toMatchObject({ wrong: 'length' });
  });

  test('says that it does not add up', () => {
    const other = mark[0] === 'F' ? 'A' : 'F';
    expect(readMark(other + mark.slice(1))).toMatchObject({ wrong: 'check' });
  });

  test('says that a mark which could be read either way up was never given', () => {
    const symbols = 'HNXK';
    const both = symbols + checkSymbol(symbols);
    if (!(both.at(-1)! in TURNED)) throw new Error('choose other symbols');
    expect(readMark(both)).toMatchObject({ wrong: 'way-up' });
  });
});
