/** What has been tapped of one piece or lot while it is looked over, and what that comes to. Pure. */
import type { LookOver } from '../../../server/studio/piece/look-over.ts';
import type { PlaceRow } from '../../api/studio.ts';

type Part = LookOver['parts'][number];
export type Grade = NonNullable<Part['grade']>;
type Seen = NonNullable<Part['faults']>[number];

export type Step = 'kind' | 'zone' | 'count' | 'grade' | 'repair' | 'rest';

export interface Look {
  /** Pieces of the lot. */
  readonly of: number;
  readonly step: Step;
  /** Parts of the lot of which all is said. */
  readonly parts: readonly Part[];
  /** What is being said now. */
  readonly seen: readonly Seen[];
  readonly kind?: string;
  readonly count?: number;
  readonly grade?: Grade;
}

export const begun = (of: number): Look => ({ of, step: 'kind', parts: [], seen: [] });

export const restOf = (look: Look): number => look.of - look.parts.reduce((sum, part) => sum + part.count, 0);

const afterSeen = (look: Look): Look => {
  const one = restOf(look) === 1;
  if (look.count !== undefined) return { ...look, step: 'grade' };
  return one ? { ...look, count: 1, step: 'grade' } : { ...look, step: 'count' };
};

/** A piece in shards has no zone to choose. */
const NOWHERE: readonly string[] = ['broken'];

export function pickKind(look: Look, kind: string): Look {
  if (NOWHERE.includes(kind)) return afterSeen({ ...look, seen: [...look.seen, { kind }] });
  return { ...look, kind, step: 'zone' };
}

export function pickZone(look: Look, zone: string | undefined): Look {
  const seen = { kind: look.kind!, ...(zone ? { zone } : {}) };
  return afterSeen({ ...look, kind: undefined, seen: [...look.seen, seen] });
}

export const pickCount = (look: Look, count: number): Look => ({ ...look, count, step: 'grade' });

/** Another fault on the same pieces. */
export const another = (look: Look): Look => ({ ...look, step: 'kind' });

const closed = (look: Look, part: Omit<Part, 'count'>): Look => {
  const { of, parts } = look;
  const next = [
    ...parts,
    { count: look.count ?? 1, ...(look.seen.length > 0 ? { faults: [...look.seen] } : {}), ...part },
  ];
  return { of, parts: next, seen: [], step: 'rest' };
};

/** @param grade none for bisque ware that goes on to be glazed */
export const pickGrade = (look: Look, grade: Grade | undefined): Look => closed(look, grade ? { grade } : {});

/** It is a second as it stands, and is to be mended. */
export const toMend = (look: Look): Look => ({ ...look, grade: 'second', step: 'repair' });

export const pickRepair = (look: Look, repair: string): Look =>
  closed(look, { grade: look.grade ?? 'second', repair });

/** The rest of the lot has nothing wrong with it. */
export const restGood = (look: Look): readonly Part[] => [
  ...look.parts,
  { count: restOf(look), grade: 'first' },
];

export const isDone = (look: Look): boolean => look.step === 'rest' && restOf(look) === 0;

export const wish = (row: Pick<PlaceRow, 'piece'>, firing: string, parts: readonly Part[]) => ({
  command: 'piece.look-over',
  input: { piece: row.piece, firing, parts: [...parts] } satisfies LookOver,
});

/** Whether the piece is still to be looked over in this firing. */
export const toLookOver = (row: PlaceRow, passed: readonly string[]): boolean =>
  row.grade === null &&
  row.faults.length === 0 &&
  row.latest &&
  !row.drawn &&
  row.stage !== 'left' &&
  !passed.includes(row.piece);
