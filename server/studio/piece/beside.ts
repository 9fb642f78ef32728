/**
 * When two devices spoke of the same piece without knowing of each other: whether they said the
 * same, or what cannot both be true. Counts and words are compared, not notes.
 */
import type { Entry } from '../../contract/entry.ts';
import type { StudioData, StudioEventName } from '../../contract/studio/events.ts';

export type Beside = 'alike' | 'against' | undefined;

/** The data of the entries of one name. */
export const dataOf = <Name extends StudioEventName>(
  others: readonly Entry[],
  name: Name,
): readonly StudioData<Name>[] =>
  others.filter((entry) => entry.name === name).map((entry) => entry.data as StudioData<Name>);

/** Where one does not say it, it is not another one. */
const sameOrUnsaid = <T>(one: T | undefined, other: T | undefined): boolean =>
  one === undefined || other === undefined || one === other;

const equal = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

/** Of one fact about a piece there can be one value: the same again, or another. */
export const oneValue =
  <Name extends 'piece.recounted' | 'piece.owner-changed' | 'piece.priced'>(
    name: Name,
    value: (data: Omit<StudioData<Name>, 'why'>) => unknown,
  ) =>
  (input: Omit<StudioData<Name>, 'why'>, others: readonly Entry[]): Beside => {
    const said = dataOf(others, name).filter((data) => data.piece === input.piece);
    if (said.length === 0) return undefined;
    return said.every((data) => equal(value(data), value(input))) ? 'alike' : 'against';
  };

interface Graded {
  readonly piece: string;
  readonly firing?: string;
  readonly first: number;
  readonly second: number;
  readonly waster: number;
  readonly price?: unknown;
  readonly secondPrice?: unknown;
}

/** A lot of mixed grades was split by grade: what the command graded is added up. */
export function gradedBeside(input: Graded, others: readonly Entry[]): Beside {
  const graded = dataOf(others, 'piece.graded');
  const parts = dataOf(others, 'lot.split')
    .filter((split) => split.piece === input.piece)
    .flatMap((split) => split.into.map((part) => part.piece));
  const ours = graded.filter((data) => data.piece === input.piece || parts.includes(data.piece));
  if (ours.length === 0 || !ours.every((data) => sameOrUnsaid(data.firing, input.firing))) return undefined;
  const sum = (grade: 'first' | 'second' | 'waster') => ours.reduce((all, data) => all + data[grade], 0);
  const same =
    sum('first') === input.first && sum('second') === input.second && sum('waster') === input.waster;
  const prices = [input.price, input.secondPrice].filter((price) => price !== undefined);
  const priced = prices.every((price) => ours.some((data) => equal(data.price, price)));
  return same && priced ? 'alike' : 'against';
}

interface LookedOver {
  readonly piece: string;
  readonly firing?: string;
  readonly parts: readonly {
    readonly count: number;
    readonly grade?: 'first' | 'second' | 'waster';
    readonly faults?: readonly { readonly kind: string; readonly zone?: string }[];
    readonly repair?: string;
  }[];
}

const seenOn = (faults: readonly { readonly kind: string; readonly zone?: string }[]): string[] =>
  faults.map(({ kind, zone = '' }) => `${kind}@${zone}`).sort();

/** By the grades first; where they agree, or none were given, by the faults and the mending. */
export function lookedOverBeside(input: LookedOver, others: readonly Entry[]): Beside {
  const sum = (grade: string) =>
    input.parts.reduce((all, part) => all + (part.grade === grade ? part.count : 0), 0);
  const graded = { first: sum('first'), second: sum('second'), waster: sum('waster') };
  const { piece, firing } = input;
  const byGrade = gradedBeside({ piece, firing, ...graded }, others);
  const found = seenOn(dataOf(others, 'fault.found'));
  const mending = dataOf(others, 'repair.decided').map(({ method }) => method);
  const sameSeen = equal(found, seenOn(input.parts.flatMap((part) => part.faults ?? [])));
  const same =
    sameSeen &&
    equal(
      mending,
      input.parts.flatMap((part) => part.repair ?? []),
    );
  if (byGrade === 'alike') return same ? 'alike' : undefined;
  if (byGrade === 'against') return 'against';
  const ofThis = dataOf(others, 'fault.found').some((data) => data.piece === piece);
  return ofThis && same ? 'alike' : undefined;
}

interface Found {
  readonly piece: string;
  readonly kind: string;
  readonly zone?: string;
  readonly firing?: string;
}

/** Graded by mixed counts the lot is in parts, and nobody said which of them have what was seen on the whole. */
const partedByGrade = (piece: string, others: readonly Entry[]): boolean =>
  dataOf(others, 'lot.split').some((split) => split.piece === piece) &&
  dataOf(others, 'piece.graded').length > 0 &&
  dataOf(others, 'fault.found').length === 0;

/** A fault may be found twice: both are kept, and it is said. */
export function foundBeside(input: Found, others: readonly Entry[]): Beside {
  if (partedByGrade(input.piece, others)) return 'against';
  const again = dataOf(others, 'fault.found').some(
    (data) =>
      data.piece === input.piece &&
      data.kind === input.kind &&
      data.zone === input.zone &&
      sameOrUnsaid(data.firing, input.firing),
  );
  return again ? 'alike' : undefined;
}

interface Mended {
  readonly piece: string;
  readonly method: string;
  readonly fault?: string;
}

/** Two ways to mend the same fault are a choice; two faults may have two. */
export const mendedBeside =
  (name: 'repair.decided' | 'repair.done') =>
  (input: Mended, others: readonly Entry[]): Beside => {
    const ours = dataOf(others, name).filter(
      (data) => data.piece === input.piece && sameOrUnsaid(data.fault, input.fault),
    );
    if (ours.some((data) => data.method === input.method)) return 'alike';
    return name === 'repair.decided' && ours.length > 0 ? 'against' : undefined;
  };

interface Glazed {
  readonly piece: string;
  readonly zone?: string;
  readonly layers: readonly { readonly glaze: string; readonly coats: number }[];
}

/** Another glaze on the same zone may well have gone over it; the same one was probably noted twice. */
export const glazedBeside = (input: Glazed, others: readonly Entry[]): Beside =>
  dataOf(others, 'glaze.applied').some(
    (data) => data.piece === input.piece && data.zone === input.zone && equal(data.layers, input.layers),
  )
    ? 'alike'
    : undefined;

interface Leaving {
  readonly piece: string;
  readonly how: string;
  readonly count?: number;
  readonly to?: unknown;
  readonly price?: unknown;
  readonly note?: unknown;
}

/** It left once; a note would be lost if it counted as said already. */
export function leftBeside(input: Leaving, others: readonly Entry[]): Beside {
  const ours = dataOf(others, 'piece.left').filter((data) => data.piece === input.piece);
  if (ours.length === 0) return undefined;
  const same = (data: StudioData<'piece.left'>) =>
    data.how === input.how &&
    input.note === undefined &&
    sameOrUnsaid(data.count, input.count) &&
    equal(data.to, input.to) &&
    equal(data.price, input.price);
  return ours.every(same) ? 'alike' : 'against';
}
