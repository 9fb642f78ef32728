import type { Reading } from './cell.ts';
import { failed, listed, unfit, withTimes } from './cell.ts';
import type { Grades } from './grade.ts';
import type { KnownWords } from './words.ts';
import { readWord } from './words.ts';

export interface RowFault {
  readonly kind: string;
  /** Absent when the row does not say where. */
  readonly zone?: string;
  /** Pieces of the lot that show it; absent: all its seconds and wasters. */
  readonly count?: number;
}

const EXPECTED = 'faults like pinholes@inside; runs@foot x3';

/** Kind, @zone, xN pieces of the lot; faults divided by ; */
export function readFaults(cell: string, lot: number, words: KnownWords): Reading<RowFault[]> {
  const value: RowFault[] = [];
  for (const part of listed(cell)) {
    const fault = readFault(part, lot, words);
    if (failed(fault)) return fault;
    value.push(fault.value);
  }
  return value.length === 0 ? unfit(cell, EXPECTED) : { value };
}

function readFault(part: string, lot: number, words: KnownWords): Reading<RowFault> {
  const { text, times } = withTimes(part);
  const at = text.indexOf('@');
  const kind = readWord(at < 0 ? text : text.slice(0, at).trim(), 'fault', words);
  if (failed(kind)) return kind;
  const zone = at < 0 ? undefined : readWord(text.slice(at + 1).trim(), 'zone', words);
  if (zone !== undefined && failed(zone)) return zone;
  const where = zone === undefined ? {} : { zone: zone.value };
  if (times === undefined) return { value: { kind: kind.value, ...where } };
  const count = /^\d{1,6}$/.test(times) ? Number(times) : 0;
  if (count < 1) return unfit(part, 'a number of pieces from 1, like x3');
  if (count > lot)
    return unfit(part, `at most ${lot}, as the lot has ${lot} ${lot === 1 ? 'piece' : 'pieces'}`);
  return { value: { kind: kind.value, ...where, count } };
}

/**
 * On which pieces of a graded lot a fault is: without a number on all seconds and wasters; with one the
 * wasters are filled first, then the seconds, and what is over did not cost the grade and falls on firsts.
 * A lot without seconds and wasters, or not yet graded, has a fault without a number on all its pieces.
 */
export function faultByGrade(count: number | undefined, grades: Grades): Grades {
  const { first, second, waster } = grades;
  if (count === undefined && second + waster === 0) return grades;
  if (count === undefined) return { first: 0, second, waster };
  const onWasters = Math.min(count, waster);
  const onSeconds = Math.min(count - onWasters, second);
  return { waster: onWasters, second: onSeconds, first: Math.min(count - onWasters - onSeconds, first) };
}
