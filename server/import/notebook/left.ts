import type { Reading } from '../../contract/cells/cell.ts';
import { failed, unfit } from '../../contract/cells/cell.ts';
import { readDay } from '../../contract/cells/dates.ts';
import { handleOf } from '../../contract/studio/values.ts';
import { LEAVINGS } from '../../contract/trade.ts';

export interface RowLeft {
  readonly how: (typeof LEAVINGS)[number];
  /** Absent when the row does not say when. */
  readonly day?: string;
}

const EXPECTED = `${LEAVINGS.join(', ')}, and the date if it is known, like sold 2026-05-01`;

/** 'sold 2026-05-01': manner and, if known, date. */
export function readLeft(cell: string, today: string): Reading<RowLeft> {
  const match = /^([^\d]+?)(?:\s+(\d.*))?$/s.exec(cell);
  const how = match === null ? undefined : LEAVINGS.find((manner) => manner === handleOf(match[1]!));
  if (match === null || how === undefined) return unfit(cell, EXPECTED);
  if (match[2] === undefined) return { value: { how } };
  const day = readDay(match[2].trim(), today);
  return failed(day) ? day : { value: { how, day: day.value } };
}
