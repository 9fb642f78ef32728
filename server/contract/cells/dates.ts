import type { Reading } from './cell.ts';
import { unfit } from './cell.ts';

const EXPECTED = 'a date like 2026-05-01';
const EARLIEST = '1900-01-01';

/**
 * A day as ISO 8601 writes it (4.1.2.2, extended). A midnight that a spreadsheet has put behind it is let
 * pass. `today` is the last day that can have happened.
 */
export function readDay(cell: string, today: string): Reading<string> {
  const match = /^(\d{4})-(\d\d)-(\d\d)(?:[T ]00:00(?::00(?:\.0+)?)?)?$/.exec(cell);
  if (match === null) return unfit(cell, EXPECTED);
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const date = new Date(Date.UTC(year, month - 1, day));
  if (date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) {
    return unfit(cell, `${EXPECTED}; there is no such day`);
  }
  const value = cell.slice(0, 10);
  if (value < EARLIEST) return unfit(cell, `${EXPECTED}, from 1900 on`);
  if (value > today) return unfit(cell, `a day that has been: today is ${today}`);
  return { value };
}
