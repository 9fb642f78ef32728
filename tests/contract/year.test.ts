/** The studio's year, on any start day and in leap years. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  endOfYearFrom,
  shifted,
  spanBefore,
  startOfYearTo,
  yearName,
  yearOf,
} from '../../server/contract/year.ts';

const day = fc
  .date({ min: new Date('1990-01-01'), max: new Date('2060-12-31'), noInvalidDate: true })
  .map((date) => date.toISOString().slice(0, 10));
const start = day.map((text) => text.slice(5));

describe('the studio’s year', () => {
  test('is the calendar’s where it starts on 1 January', () => {
    expect(yearOf('2026-11-25', '01-01')).toEqual({ from: '2026-01-01', to: '2026-12-31' });
    expect(yearName(yearOf('2026-11-25', '01-01'))).toBe('2026');
  });

  test('can start on 6 April: the 5th is still last year', () => {
    expect(yearOf('2026-04-05', '04-06')).toEqual({ from: '2025-04-06', to: '2026-04-05' });
    expect(yearOf('2026-04-06', '04-06')).toEqual({ from: '2026-04-06', to: '2027-04-05' });
    expect(yearName(yearOf('2026-04-05', '04-06'))).toBe('2025/26');
  });

  test('can start on 1 July, and be looked back from', () => {
    expect(yearOf('2026-06-30', '07-01', 1)).toEqual({ from: '2024-07-01', to: '2025-06-30' });
  });

  test('that starts on 29 February starts on 1 March where there is none', () => {
    expect(yearOf('2024-02-29', '02-29')).toEqual({ from: '2024-02-29', to: '2025-02-28' });
    expect(yearOf('2025-03-01', '02-29')).toEqual({ from: '2025-03-01', to: '2026-02-28' });
    expect(yearOf('2024-02-28', '02-29')).toEqual({ from: '2023-03-01', to: '2024-02-28' });
  });

  test('follows the year before without a gap, whatever the day it starts on', () => {
    fc.assert(
      fc.property(day, start, (at, yearStart) => {
        const year = yearOf(at, yearStart);
        expect(year.from <= at && at <= year.to).toBe(true);
        expect(shifted(yearOf(at, yearStart, 1).to, 1)).toBe(year.from);
      }),
    );
  });

  test('can be told from its first day, or from its last', () => {
    expect(endOfYearFrom('2025-04-06')).toBe('2026-04-05');
    expect(startOfYearTo('2026-04-05')).toBe('2025-04-06');
    expect(endOfYearFrom('2024-02-29')).toBe('2025-02-28');
    expect(startOfYearTo('2026-12-31')).toBe('2026-01-01');
  });
});

describe('the same days a year earlier', () => {
  test.each([
    ['2026-01-01', '2026-11-25', '2025-01-01', '2025-11-25'],
    ['2025-04-06', '2026-04-05', '2024-04-06', '2025-04-05'],
    // A year of 365 days after one of 366, and the other way about.
    ['2024-03-01', '2025-02-28', '2023-03-01', '2024-02-29'],
    ['2023-03-01', '2024-02-29', '2022-03-01', '2023-02-28'],
    ['2024-02-29', '2024-03-31', '2023-03-01', '2023-03-31'],
    ['2024-01-01', '2024-02-28', '2023-01-01', '2023-02-28'],
  ])('%s to %s: %s to %s', (from, to, earlierFrom, earlierTo) => {
    expect(spanBefore({ from, to })).toEqual({ from: earlierFrom, to: earlierTo });
  });
});
