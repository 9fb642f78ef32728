import type { Reading } from '../../contract/cells/cell.ts';
import { unfit } from '../../contract/cells/cell.ts';
import { GRADES } from '../../contract/trade.ts';

export interface Grades {
  readonly first: number;
  readonly second: number;
  readonly waster: number;
}

const EXPECTED = 'first, second or waster, or counts like first 9, second 2, waster 1';

/** A word for the whole lot, or counts that add up to it. */
export function readGrade(cell: string, lot: number): Reading<Grades> {
  const grades = { first: 0, second: 0, waster: 0 };
  const parts = cell.split(/[,;\n]/).map((part) => part.trim());
  const seen = new Set<string>();
  for (const part of parts) {
    const match = /^(first|second|waster)s?(?:\s+[x×]?\s*(-?[\d.]+))?$/i.exec(part);
    if (match === null) return unfit(cell, EXPECTED);
    const grade = match[1]!.toLowerCase() as (typeof GRADES)[number];
    if (seen.has(grade)) return unfit(cell, `each grade once: ${EXPECTED}`);
    seen.add(grade);
    if (match[2] === undefined && parts.length > 1)
      return unfit(cell, `a count behind each grade: ${EXPECTED}`);
    if (match[2] !== undefined && !/^\d{1,6}$/.test(match[2]))
      return unfit(cell, `whole numbers of pieces: ${EXPECTED}`);
    grades[grade] = match[2] === undefined ? lot : Number(match[2]);
  }
  const sum = GRADES.reduce((all, grade) => all + grades[grade], 0);
  if (sum !== lot)
    return unfit(
      cell,
      `grades that add up to the lot: ${sum} ${sum === 1 ? 'is' : 'are'} graded and the lot has ${lot}`,
    );
  return { value: grades };
}
