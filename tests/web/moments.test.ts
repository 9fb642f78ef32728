import { expect, test } from 'vitest';
import { momentOf } from '../../web/api/moments.ts';

// The tests run on London's clock.
test.each([
  ['2026-07-01', '09:05', '2026-07-01T09:05:00+01:00'],
  ['2026-12-01', '23:30', '2026-12-01T23:30:00+00:00'],
])('%s at %s keeps the wall clock and says its offset', (day, time, moment) => {
  expect(momentOf(day, time)).toBe(moment);
  expect(new Date(moment).getTime()).toBe(new Date(`${day}T${time}`).getTime());
});
