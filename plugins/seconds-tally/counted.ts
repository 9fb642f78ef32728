/**
 * How one portion of a lot counts: its latest grade, dated by the firing that
 * the grade judges, under every glaze, clay, schedule, kiln and fault it had.
 */
import type { Grading, Passage, Portion } from '../../server/contract/studio/state.ts';

export interface Counted {
  readonly piece: string;
  readonly mark: string | null;
  readonly form: string | null;
  readonly count: number;
  readonly grade: Grading['grade'];
  /** Day on which the firing that is judged ended; the day of grading where no firing is known. */
  readonly day: string;
  readonly owner: string;
  /** Money lost on all its pieces, in minor units of `currency` ('' where no price is known). */
  readonly lost: number;
  readonly currency: string;
  /** Seconds and wasters without a price: nothing can be said of their loss. */
  readonly unpriced: number;
  /** Under what it counts, with how many of its pieces ('fault' only some). */
  readonly under: readonly Under[];
}

export interface Under {
  readonly by: string;
  readonly key: string;
  readonly count: number;
}

const cameOut = (p: Passage): boolean => p.state === 'ended' || p.state === 'drawn';

/** The glaze firing that the grade judges, or the firing it names. */
function judged(portion: Portion, grading: Grading): Passage | undefined {
  const until = portion.passages.filter(
    (p) => cameOut(p) && (p.endedAt ?? p.packedAt).slice(0, 10) <= grading.at.slice(0, 10),
  );
  const named = until.find((p) => p.firing === grading.firing);
  if (named?.role === 'glaze') return named;
  return until.findLast((p) => p.role === 'glaze') ?? named;
}

const last = (passages: readonly Passage[], role: string) =>
  passages.findLast((p) => p.role === role && cameOut(p));

/**
 * What each piece lost: the price as a first less what it sold for or is offered for.
 * A waster loses the whole. Undefined where the price is not known.
 */
export function lostEach(portion: Portion, grade: Grading['grade']): number | undefined {
  if (grade === 'first') return 0;
  if (!portion.price) return undefined;
  if (grade === 'waster') return portion.price.amount;
  const sold = portion.left?.price ?? portion.secondPrice;
  if (!sold || sold.currency !== portion.price.currency) return undefined;
  return Math.max(0, portion.price.amount - sold.amount);
}

/** Faults seen after the firing that is judged; of several entries of one kind the largest count. */
function faultsUnder(portion: Portion, passage: Passage | undefined): Under[] {
  const most = new Map<string, number>();
  for (const fault of portion.faults) {
    if (passage && fault.firing && fault.firing !== passage.firing) continue;
    most.set(fault.kind, Math.max(most.get(fault.kind) ?? 0, Math.min(fault.count, portion.count)));
  }
  return [...most].map(([key, count]) => ({ by: 'fault', key, count }));
}

function under(portion: Portion, passage: Passage | undefined): Under[] {
  const whole = (by: string, key: string | undefined): Under[] =>
    key ? [{ by, key, count: portion.count }] : [];
  const glazes = new Set(
    (passage?.glazings ?? portion.glazings).flatMap((g) => g.layers.map((l) => l.glaze)),
  );
  const glaze = passage?.role === 'glaze' ? passage : undefined;
  const bisque = last(portion.passages, 'bisque');
  return [
    { by: 'all', key: '', count: portion.count },
    ...[...glazes].flatMap((key) => whole('glaze', key)),
    ...whole('clay', portion.clay),
    ...whole('schedule', glaze?.schedule),
    ...whole('kiln', glaze?.kiln),
    ...whole('bisque-schedule', bisque?.schedule),
    ...whole('bisque-kiln', bisque?.kiln),
    ...faultsUnder(portion, passage),
  ];
}

export function countPortion(portion: Portion): Counted | undefined {
  const grading = portion.gradings.at(-1);
  if (!grading) return undefined;
  const passage = judged(portion, grading);
  const each = lostEach(portion, grading.grade);
  return {
    piece: portion.piece,
    mark: portion.mark ?? null,
    form: portion.form ?? null,
    count: portion.count,
    grade: grading.grade,
    day: (passage?.endedAt ?? grading.at).slice(0, 10),
    owner: portion.owner.kind,
    lost: (each ?? 0) * portion.count,
    currency: portion.price?.currency ?? '',
    unpriced: each === undefined ? portion.count : 0,
    under: under(portion, passage),
  };
}

/** Pieces that came out of a glaze firing and were never graded, by the day it ended. */
export function ungraded(portion: Portion): { day: string; owner: string; count: number } | undefined {
  const passage = last(portion.passages, 'glaze');
  if (portion.gradings.length > 0 || !passage) return undefined;
  return {
    day: (passage.endedAt ?? passage.packedAt).slice(0, 10),
    owner: portion.owner.kind,
    count: portion.count,
  };
}
