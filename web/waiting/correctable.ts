/** What of an order can be set right before it is sent anew: everything that a potter may have mistaken. Pure. */
import type { MaterialKind, WordKind } from '../api/studio.ts';

export type Place = readonly (string | number)[];

export interface Correctable {
  readonly place: Place;
  /** Name of the field: 'kind', 'price'. */
  readonly name: string;
  readonly as: 'piece' | 'count' | 'money' | 'words' | 'grade' | MaterialKind | WordKind;
  readonly value: unknown;
}

const COUNTS: readonly string[] = ['first', 'second', 'waster', 'count', 'coats', 'shelf'];
const WORDS: readonly string[] = ['note', 'form', 'label', 'position'];
const CHOICES: Readonly<Record<string, Correctable['as']>> = {
  piece: 'piece',
  kind: 'fault',
  fault: 'fault',
  zone: 'zone',
  grade: 'grade',
  repair: 'repair',
  method: 'repair',
  glaze: 'glaze',
  clay: 'clay',
  kiln: 'kiln',
  schedule: 'schedule',
};
/** Left out when it was noted, and often just what was wrong. */
const BLANKS: Readonly<Record<string, object>> = {
  'piece.grade': { first: 0, second: 0, waster: 0 },
  'fault.find': { zone: '' },
};

function asWhat(name: string, value: unknown): Correctable['as'] | undefined {
  if (typeof value === 'number') return COUNTS.includes(name) ? 'count' : undefined;
  if (typeof value === 'string') return WORDS.includes(name) ? 'words' : CHOICES[name];
  return isMoney(value) ? 'money' : undefined;
}

const isMoney = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && 'amount' in value && 'currency' in value;

function within(value: unknown, place: Place): Correctable[] {
  if (typeof value !== 'object' || value === null) return [];
  // Whose it is has a screen of its own.
  return Object.entries(value)
    .filter(([name]) => name !== 'owner')
    .flatMap(([key, inner]) => {
      const name = Array.isArray(value) ? Number(key) : key;
      const as = asWhat(String(name), inner);
      const at = [...place, name];
      return as ? [{ place: at, name: String(name), as, value: inner }] : within(inner, at);
    });
}

/** With what may be said and was left out. */
export const complete = (command: string, input: object): object => ({ ...BLANKS[command], ...input });

/** @param input as `complete` makes it. A piece that is begun has its id from its beginning: that is no mistake. */
export const correctable = (command: string, input: object): readonly Correctable[] =>
  within(input, []).filter(
    ({ as, place }) => as !== 'piece' || command !== 'piece.begin' || place.length > 1,
  );

/** The input with another value in that place; an empty choice is left out. */
export function corrected(input: object, [first, ...rest]: Place, value: unknown): object {
  const copy = (Array.isArray(input) ? [...input] : { ...input }) as Record<string | number, unknown>;
  if (rest.length > 0) copy[first!] = corrected(copy[first!] as object, rest, value);
  else copy[first!] = value;
  return copy;
}

/** As it is sent: without choices that are left empty. */
export function filled(input: unknown): unknown {
  if (Array.isArray(input)) return input.map(filled);
  if (typeof input !== 'object' || input === null) return input;
  return Object.fromEntries(
    Object.entries(input)
      .filter(([, inner]) => inner !== '')
      .map(([name, inner]) => [name, filled(inner)]),
  );
}
