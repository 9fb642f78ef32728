import type { Reading } from '../../contract/cells/cell.ts';
import { failed, listed, unfit, withTimes } from '../../contract/cells/cell.ts';
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
 * On how many pieces a fault is. Without a number it is on all seconds and wasters; where the lot has none,
 * or is not graded yet, on every piece. The grading then fills wasters first, then seconds, then firsts.
 */
export function piecesWith(fault: RowFault, lot: number, grades: Grades | undefined): number {
  return fault.count ?? (grades === undefined ? lot : grades.second + grades.waster || lot);
}
