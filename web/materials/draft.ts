/** What is typed about a material, and what of it goes into the record. Pure. */
import type { MaterialKind, MaterialRow } from '../api/studio.ts';

export interface SegmentDraft {
  readonly rate: string;
  readonly target: string;
  readonly hold: string;
}

export interface Draft {
  readonly name: string;
  readonly note: string;
  readonly cone: string;
  readonly coneLow: string;
  readonly coneHigh: string;
  /** Per cent. */
  readonly shrinkage: string;
  readonly costly: boolean;
  readonly fluid: boolean;
  readonly role: string;
  readonly shape: string;
  readonly width: string;
  readonly depth: string;
  readonly height: string;
  readonly shelves: string;
  readonly power: string;
  readonly segments: readonly SegmentDraft[];
}

export const blank: Draft = {
  name: '',
  note: '',
  cone: '',
  coneLow: '',
  coneHigh: '',
  shrinkage: '',
  costly: false,
  fluid: false,
  role: '',
  shape: '',
  width: '',
  depth: '',
  height: '',
  shelves: '',
  power: '',
  segments: [],
};

const FIELDS: Readonly<
  Record<
    MaterialKind,
    { words: readonly (keyof Draft)[]; numbers: readonly (keyof Draft)[]; flags: readonly (keyof Draft)[] }
  >
> = {
  clay: { words: ['coneLow', 'coneHigh'], numbers: [], flags: [] },
  glaze: { words: ['cone'], numbers: [], flags: ['costly', 'fluid'] },
  schedule: { words: ['cone', 'role'], numbers: [], flags: [] },
  kiln: { words: ['shape'], numbers: ['width', 'depth', 'height', 'shelves', 'power'], flags: [] },
};

const numberOf = (text: string): number | undefined =>
  text.trim() && Number.isFinite(Number(text)) ? Number(text) : undefined;

const segmentOf = (draft: SegmentDraft) => ({
  rate: numberOf(draft.rate),
  target: numberOf(draft.target),
  hold: numberOf(draft.hold) ?? 0,
});

/** The input of the command for this kind; only what was said. */
export function materialInput(kind: MaterialKind, draft: Draft, id?: string): Record<string, unknown> {
  const { words, numbers, flags } = FIELDS[kind];
  const shrinkage = kind === 'clay' ? numberOf(draft.shrinkage) : undefined;
  const segments =
    kind === 'schedule'
      ? draft.segments.map(segmentOf).filter((s) => s.rate !== undefined && s.target !== undefined)
      : [];
  const pairs: [string, unknown][] = [
    ...words.map((name): [string, unknown] => [name, draft[name] || undefined]),
    ...numbers.map((name): [string, unknown] => [name, numberOf(String(draft[name]))]),
    ...flags.map((name): [string, unknown] => [name, draft[name] || undefined]),
    ['shrinkage', shrinkage === undefined ? undefined : Number((shrinkage / 100).toPrecision(6))],
    ['segments', segments.length > 0 ? segments : undefined],
    ['note', draft.note.trim() || undefined],
  ];
  return {
    ...(id ? { id } : {}),
    name: draft.name.trim(),
    ...Object.fromEntries(pairs.filter(([, value]) => value !== undefined)),
  };
}

/** A material as it can be changed. Notes are not taken over: each change has its own. */
export function draftOf(row: MaterialRow): Draft {
  const facts = row.facts;
  const text = (name: string): string =>
    facts[name] === undefined || facts[name] === null ? '' : String(facts[name]);
  const segments = (facts.segments as { rate: number; target: number; hold: number }[] | undefined) ?? [];
  return {
    ...blank,
    name: row.name,
    cone: text('cone'),
    coneLow: text('coneLow'),
    coneHigh: text('coneHigh'),
    shrinkage:
      facts.shrinkage === undefined ? '' : String(Number((Number(facts.shrinkage) * 100).toPrecision(6))),
    costly: facts.costly === true,
    fluid: facts.fluid === true,
    role: text('role'),
    shape: text('shape'),
    width: text('width'),
    depth: text('depth'),
    height: text('height'),
    shelves: text('shelves'),
    power: text('power'),
    segments: segments.map((s) => ({ rate: String(s.rate), target: String(s.target), hold: String(s.hold) })),
  };
}
