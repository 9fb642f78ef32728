/**
 * What is counted: one piece through one glaze firing, inspected. Inspected means that a grade
 * judges that firing, or that the piece was found faulty after it and mended before the next one.
 */
import { doneBefore } from '../../server/contract/studio/mended.ts';
import type { Grading, Passage, Portion } from '../../server/contract/studio/state.ts';
import type { Grade } from '../../server/contract/trade.ts';

export interface Unit {
  readonly passage: Passage;
  /** The last bisque firing before it. */
  readonly bisque?: Passage;
  /** Day on which the glaze firing ended. */
  readonly day: string;
  /** Absent where the piece was mended before it was graded: it had failed. */
  readonly grade?: Grade;
  /** Pieces of the portion by fault found after this firing. */
  readonly faults: ReadonlyMap<string, number>;
}

const dayOf = (at: string): string => at.slice(0, 10);
const cameOut = (p: Passage): boolean => p.state === 'ended' || p.state === 'drawn';
const endOf = (p: Passage): string => dayOf(p.endedAt ?? p.packedAt);

/** The glaze firing that a grade judges: the one it names, or else the last before it. */
function judgedBy(grading: Grading, glazeFirings: readonly Passage[]): Passage | undefined {
  const until = glazeFirings.filter((p) => endOf(p) <= dayOf(grading.at));
  return until.findLast((p) => p.firing === grading.firing) ?? until.at(-1);
}

/** The last grade before any mending; or, mended before the first, that one. */
function gradeOf(portion: Portion, passage: Passage, gradings: readonly Grading[]): Grading | undefined {
  const since = portion.repairs.filter((r) => r.state === 'done' && dayOf(r.at) >= endOf(passage));
  return gradings.findLast((g) => !since.some((r) => doneBefore(r, g.at))) ?? gradings[0];
}

/** Of several entries of one kind the largest count: how they overlap is not known. */
function faultsAfter(portion: Portion, passage: Passage): Map<string, number> {
  const most = new Map<string, number>();
  for (const { firing, kind, count } of portion.faults)
    if (firing === passage.firing)
      most.set(kind, Math.max(most.get(kind) ?? 0, Math.min(count, portion.count)));
  return most;
}

/** The inspected units of a portion, the first one first. Each stands for all its pieces. */
export function unitsOf(portion: Portion): Unit[] {
  const glazeFirings = portion.passages.filter((p) => p.role === 'glaze' && cameOut(p));
  return glazeFirings.flatMap((passage, n): Unit[] => {
    const grading = gradeOf(
      portion,
      passage,
      portion.gradings.filter((g) => judgedBy(g, glazeFirings) === passage),
    );
    const faults = faultsAfter(portion, passage);
    const next = glazeFirings[n + 1];
    const mended =
      next !== undefined &&
      faults.size > 0 &&
      portion.repairs.some((r) => dayOf(r.at) >= endOf(passage) && dayOf(r.at) <= dayOf(next.packedAt));
    if (!grading && !mended) return [];
    const earlier = portion.passages.slice(0, portion.passages.indexOf(passage));
    const bisque = earlier.findLast((p) => p.role === 'bisque' && cameOut(p));
    return [{ passage, bisque, day: endOf(passage), grade: grading?.grade, faults }];
  });
}

/** The day of the last glaze firing of a portion that came out of one and was never inspected. */
export function waitsSince(portion: Portion): string | undefined {
  const last = portion.passages.findLast((p) => p.role === 'glaze' && cameOut(p));
  return last && unitsOf(portion).length === 0 ? endOf(last) : undefined;
}
