import { describe, expect, test } from 'vitest';
import { dayAfter, dayAt, dayInWords, endOf, momentAt, startOf } from '../../server/host/days.ts';

const utc = (instant: number) => new Date(instant).toISOString();
const at = (text: string) => Date.parse(text);

describe('a day in the studio', () => {
  test('begins at its own midnight', () => {
    expect(utc(startOf('2026-05-01', 'Europe/London'))).toBe('2026-04-30T23:00:00.000Z');
    expect(utc(startOf('2026-01-10', 'Pacific/Auckland'))).toBe('2026-01-09T11:00:00.000Z');
  });

  // Clocks of the United Kingdom in 2026: forward on 29 March, back on 25 October (Summer Time Order 2002).
  test('has 23 hours in spring and 25 in autumn', () => {
    const hours = (day: string) => (endOf(day, 'Europe/London') - startOf(day, 'Europe/London')) / 3_600_000;
    expect([hours('2026-03-29'), hours('2026-10-25'), hours('2026-05-01')]).toEqual([23, 25, 24]);
  });

  // Where clocks go forward at midnight: Beirut, last Sunday of March (IANA time zone database, asia).
  test('begins at one o’clock where the clock skips midnight', () => {
    expect(momentAt(startOf('2026-03-29', 'Asia/Beirut'), 'Asia/Beirut')).toBe('2026-03-29T01:00:00+03:00');
  });

  // Where clocks go back from one to midnight: Havana, first Sunday of November (IANA time zone database, northamerica).
  test('begins at the first of two midnights', () => {
    expect(momentAt(startOf('2026-11-01', 'America/Havana'), 'America/Havana')).toBe(
      '2026-11-01T00:00:00-04:00',
    );
  });

  test('is told from an instant', () => {
    expect(dayAt(at('2026-04-30T23:30:00Z'), 'Europe/London')).toBe('2026-05-01');
    expect(dayAfter('2026-12-31')).toBe('2027-01-01');
    expect(dayInWords('2026-05-03T10:00:00+01:00')).toBe('3 May 2026');
  });
});

describe('a moment in the studio', () => {
  test('carries the offset of its season', () => {
    expect(momentAt(at('2026-01-15T09:00:00.700Z'), 'Europe/London')).toBe('2026-01-15T09:00:00+00:00');
    expect(momentAt(at('2026-07-15T09:00:00Z'), 'Europe/London')).toBe('2026-07-15T10:00:00+01:00');
    expect(momentAt(at('2026-07-15T09:00:00Z'), 'America/St_Johns')).toBe('2026-07-15T06:30:00-02:30');
  });

  test('is told apart in the hour that comes twice', () => {
    expect(momentAt(at('2026-10-25T00:30:00Z'), 'Europe/London')).toBe('2026-10-25T01:30:00+01:00');
    expect(momentAt(at('2026-10-25T01:30:00Z'), 'Europe/London')).toBe('2026-10-25T01:30:00+00:00');
  });
});
