/**
 * What became of a portion in its first glaze firing, and what may have spoiled it there: what the
 * reckoning of the worst glaze is made from.
 */
import type { FoundFault, Grading, Passage, Portion, Repair } from '../../server/contract/studio/state.ts';
import type { Grade } from '../../server/contract/trade.ts';
import { lostEach } from './counted.ts';
import { glazesOn, type Located, suspectsOf } from './suspects.ts';

export interface FirstFiring {
  readonly piece: string;
  readonly mark: string | null;
  readonly form: string | null;
  readonly count: number;
  /** As it came out, before any mending; '' where it was never judged. */
  readonly grade: Grade | '';
  /** Day on which the firing ended. */
  readonly day: string;
  readonly owner: string;
  /** Lost in the end on all its pieces, by their latest grade: what mending saved is not lost. */
  readonly lost: number;
  readonly currency: string;
  readonly firing: string;
  readonly label: string | null;
  /** ' glaze=a clay=b ': every cause that was there, a space on each side. */
  readonly present: string;
  /** The same of those that may have done it; null where the pieces came out well. */
  readonly suspects: string | null;
}

const dayOf = (at: string): string => at.slice(0, 10);
const cameOut = ({ role, state }: Passage): boolean =>
  role === 'glaze' && (state === 'ended' || state === 'drawn');

const textOf = (keys: readonly string[]): string => ` ${keys.map((key) => `${key} `).join('')}`;

/** Of one day the order of recording decides: mended in the afternoon, graded again in the evening. */
const isBefore = (grading: Grading, repair: Repair): boolean => {
  const [graded, mended] = [dayOf(grading.at), dayOf(repair.at)];
  return graded < mended || (graded === mended && grading.seq < repair.seq);
};

/** ' clay=b firing=c ' to ' clay=b ': never shorter than a space, for something was said. */
export const withoutFiring = (keys: string): string => keys.replace(/firing=\S+ /, '');

/** Mended before it was graded counts as a second: it did not come out as a first. */
function gradeOf(
  { gradings, repairs }: Portion,
  { firing, endedAt }: Passage,
  next: Passage | undefined,
): Grade | '' {
  const from = dayOf(endedAt ?? '');
  const mends = repairs.filter(({ state, at }) => state === 'done' && dayOf(at) >= from);
  const its = gradings.filter((it) =>
    it.firing ? it.firing === firing : dayOf(it.at) >= from && (!next || dayOf(it.at) < dayOf(next.packedAt)),
  );
  const asItCame = its.findLast((it) => mends.every((mend) => isBefore(it, mend)));
  if (asItCame) return asItCame.grade;
  if (mends.length === 0) return its.at(-1)?.grade ?? '';
  return its.at(-1)?.grade === 'waster' ? 'waster' : 'second';
}

/** Faults of that firing; of several entries of one kind on one zone the largest. */
function faultsOf({ faults }: Portion, passage: Passage, next: Passage | undefined): FoundFault[] {
  const found = new Map<string, FoundFault>();
  for (const fault of faults) {
    const its = fault.firing
      ? fault.firing === passage.firing
      : dayOf(fault.at) >= dayOf(passage.packedAt) && (!next || dayOf(fault.at) <= dayOf(next.packedAt));
    const key = `${fault.kind} ${fault.zone ?? ''}`;
    if (its && fault.count > (found.get(key)?.count ?? 0)) found.set(key, fault);
  }
  return [...found.values()];
}

/**
 * Groups of a portion's pieces by the faults they have. Which piece has which fault is not written
 * down: the faults are dealt to the pieces in turn, so that as many as possible have one.
 */
export function dealt<F extends { readonly count: number }>(
  faults: readonly F[],
  count: number,
): { count: number; faults: F[] }[] {
  const runs: { fault: F; from: number; to: number }[] = [];
  let at = 0;
  for (const fault of faults) {
    const many = Math.min(fault.count, count);
    runs.push({ fault, from: at, to: Math.min(count, at + many) });
    if (at + many > count) runs.push({ fault, from: 0, to: at + many - count });
    at = (at + many) % count;
  }
  const cuts = [...new Set([0, count, ...runs.flatMap(({ from, to }) => [from, to])])].sort((x, y) => x - y);
  return cuts.slice(1).map((to, n) => ({
    count: to - cuts[n]!,
    faults: runs.filter((run) => run.from <= cuts[n]! && run.to >= to).map(({ fault }) => fault),
  }));
}

/** Of a piece with several faults everything that can give one of them is suspected. */
function suspected(faults: readonly Located[], passage: Passage, key: ReadonlyMap<string, string>): string[] {
  const all = faults.length > 0 ? faults : [undefined];
  const found = new Set<string>();
  for (const fault of all) {
    const { glazes, also } = suspectsOf(fault, passage.glazings);
    for (const glaze of glazes) found.add(`glaze=${glaze}`);
    for (const circumstance of also) if (key.has(circumstance)) found.add(key.get(circumstance)!);
  }
  return [...found].sort();
}

/** Pieces by kind of fault that the first glaze firing gave; of several zones of one kind the largest count. */
export function firstFaults(portion: Portion): Map<string, number> {
  const at = portion.passages.findIndex(cameOut);
  const passage = portion.passages[at];
  const most = new Map<string, number>();
  if (!passage) return most;
  for (const { kind, count } of faultsOf(portion, passage, portion.passages[at + 1]))
    most.set(kind, Math.max(most.get(kind) ?? 0, Math.min(count, portion.count)));
  return most;
}

export function firstFiring(portion: Portion): FirstFiring[] {
  const at = portion.passages.findIndex(cameOut);
  const passage = portion.passages[at];
  if (!passage) return [];
  const next = portion.passages[at + 1];
  const bisque = portion.passages
    .slice(0, at)
    .findLast(({ role, state }) => role === 'bisque' && state !== 'abandoned');
  const circumstances = Object.entries({
    clay: portion.clay,
    bisque: bisque?.schedule,
    schedule: passage.schedule,
    firing: passage.firing,
  }).flatMap(([name, id]) => (id === undefined ? [] : [[name, `${name}=${id}`] as const]));
  const keys = new Map(circumstances);
  const present = [...glazesOn(passage.glazings).map((id) => `glaze=${id}`), ...keys.values()].sort();
  const grade = gradeOf(portion, passage, next);
  const latest = portion.gradings.at(-1)?.grade;
  const each = latest && grade !== 'first' ? (lostEach(portion, latest) ?? 0) : 0;
  const row = (count: number, suspects: string | null): FirstFiring => ({
    piece: portion.piece,
    mark: portion.mark ?? null,
    form: portion.form ?? null,
    count,
    grade,
    day: dayOf(passage.endedAt ?? passage.packedAt),
    owner: portion.owner.kind,
    lost: each * count,
    currency: portion.price?.currency ?? '',
    firing: passage.firing,
    label: passage.label ?? null,
    present: textOf(present),
    suspects,
  });
  if (grade === '' || grade === 'first') return [row(portion.count, null)];
  return dealt(faultsOf(portion, passage, next), portion.count).map(({ count, faults }) =>
    row(count, textOf(suspected(faults, passage, keys))),
  );
}
