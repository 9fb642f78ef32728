/** Repairs that were done, and whether the grade after them was better. Pure. */
import { GRADES, type Grade } from '../trade.ts';
import type { Portion, Repair } from './state.ts';

export const FAULT_NOT_NOTED = 'not-noted';

const isMoment = (at: string): boolean => at.length > 10;

/** A repair of the same day, its hour not known, was done before the grading: so the record is read too. */
export function doneBefore(repair: Repair, at: string): boolean {
  if (isMoment(repair.at) && isMoment(at)) return Date.parse(repair.at) <= Date.parse(at);
  return repair.at.slice(0, 10) <= at.slice(0, 10);
}

/** Pieces of a portion that one repair was done to; it is judged by the first grade after it. */
export interface Mended {
  readonly day: string;
  readonly fault: string;
  readonly repair: string;
  readonly owner: string;
  /** Pieces whose repair a grade has judged, and those of them on which it worked. */
  readonly tried: number;
  readonly worked: number;
  /** Pieces not graded since. */
  readonly waiting: number;
}

/** The fault the repair names; without a name, the only kind found until then. */
function faultOf(portion: Portion, repair: Repair): string {
  if (repair.fault) return repair.fault;
  const kinds = new Set(
    portion.faults.filter((f) => f.at.slice(0, 10) <= repair.at.slice(0, 10)).map((f) => f.kind),
  );
  return kinds.size === 1 ? [...kinds][0]! : FAULT_NOT_NOTED;
}

const better = (after: Grade, before: Grade): boolean => GRADES.indexOf(after) < GRADES.indexOf(before);

/** It worked where the piece was graded first afterwards, or at least better than before. */
function worked(portion: Portion, repair: Repair, after: Grade): boolean {
  if (after === 'first') return true;
  const before = portion.gradings.findLast((g) => !doneBefore(repair, g.at));
  return before !== undefined && better(after, before.grade);
}

export function repairsOf(portion: Portion): Mended[] {
  return portion.repairs
    .filter((repair) => repair.state === 'done')
    .map((repair) => ({
      day: repair.at.slice(0, 10),
      fault: faultOf(portion, repair),
      repair: repair.method,
      owner: portion.owner.kind,
      tried: repair.after ? portion.count : 0,
      worked: repair.after && worked(portion, repair, repair.after) ? portion.count : 0,
      waiting: repair.after ? 0 : portion.count,
    }));
}
