/**
 * A noisy-OR model of spoiled pieces: each cause that is present spoils the piece with a chance of
 * its own, independently of the others; one is enough.
 * Pearl, Probabilistic Reasoning in Intelligent Systems (1988), 4.3.2 (from memory); Russell and
 * Norvig, Artificial Intelligence: A Modern Approach, 14.3.
 */
import { mergeAlike } from './merge.ts';
import { type Beta, type Kind, PRIORS, type Priors } from './priors.ts';
import { referenceLevels } from './references.ts';

/** Pieces alike: what was present ('glaze=marram-green'), and what may have spoiled them. */
export interface Observation {
  readonly present: readonly string[];
  /** Left out: they came out well. The background is always a suspect. */
  readonly suspects?: readonly string[];
  readonly count: number;
  /** Money lost on all of them, in minor units. */
  readonly lost?: number;
}

export const BACKGROUND = 'background=';

/** 'glaze': glazes are suspected; 'body': the piece has some, and none is; 'bare': it has none. */
export type Sign = 'glaze' | 'body' | 'bare';

export interface Cause {
  /** Key of its first member. */
  readonly key: string;
  readonly kind: Kind;
  /** More than one where the record never shows them apart; a reference level may be among them. */
  readonly members: readonly string[];
  /** Pieces it was on, and how many of them were spoiled by whatever. */
  readonly pieces: number;
  readonly seconds: number;
  readonly prior: Beta;
}

/** Spoiled pieces with the same suspects. Suspects are indexes of causes. */
export interface Pattern {
  readonly suspects: readonly number[];
  /** Whether the fault is one that a glaze can give, where the piece has glazes: see odds.ts. */
  readonly sign: Sign;
  /** Suspected glazes to all the piece's glazes. */
  readonly share: number;
  readonly count: number;
  readonly lostEach: number;
}

export interface Model {
  readonly causes: readonly Cause[];
  /** Of spoiled pieces; those that came out well only count among the pieces of each cause. */
  readonly patterns: readonly Pattern[];
  /** The clay and the schedules that others are measured against. */
  readonly references: readonly string[];
  readonly pieces: number;
  readonly seconds: number;
}

export interface ModelOptions {
  readonly priors?: Priors;
  /** False: nothing spoils a piece but the causes named. */
  readonly background?: boolean;
}

const glazesIn = (keys: readonly string[]): number => keys.filter((key) => key.startsWith('glaze=')).length;

function signOf(present: readonly string[], suspects: readonly string[]): { sign: Sign; share: number } {
  const [all, some] = [glazesIn(present), glazesIn(suspects)];
  if (all === 0) return { sign: 'bare', share: 1 };
  return some === 0 ? { sign: 'body', share: 1 } : { sign: 'glaze', share: some / all };
}

export const kindOf = (key: string): Kind => key.slice(0, key.indexOf('=')) as Kind;

/** The chance that a piece is spoiled by at least one of the causes with these chances. */
export const chanceSpoiled = (chances: readonly number[]): number =>
  1 - chances.reduce((well, chance) => well * (1 - chance), 1);

/** A reference level is no cause; it is only named where a cause of another kind was never without it. */
function withoutReferences(group: readonly string[], references: readonly string[]): readonly string[] {
  const causes = group.filter((key) => !references.includes(key));
  return causes.some((key) => key !== BACKGROUND) ? group : causes;
}

export function buildModel(observed: readonly Observation[], options: ModelOptions = {}): Model {
  const { priors = PRIORS, background = true } = options;
  const own = background ? [BACKGROUND] : [];
  const observations = observed.map((it) => ({
    ...it,
    present: [...it.present, ...own],
    ...(it.suspects ? { suspects: [...it.suspects, ...own] } : {}),
  }));
  const references = background ? referenceLevels(observations) : [];
  const groups = mergeAlike(observations)
    .map((group) => withoutReferences(group, references))
    .filter((group) => group.length > 0);
  const at = new Map(groups.flatMap((group, n) => group.map((key) => [key, n] as const)));
  const indexes = (keys: readonly string[]): number[] =>
    [...new Set(keys.flatMap((key) => at.get(key) ?? []))].sort((x, y) => x - y);
  const pieces = groups.map(() => 0);
  const seconds = groups.map(() => 0);
  const patterns = new Map<string, Omit<Pattern, 'lostEach'> & { count: number; lost: number }>();
  for (const { present, suspects, count, lost = 0 } of observations) {
    for (const n of indexes(present)) {
      pieces[n]! += count;
      if (suspects) seconds[n]! += count;
    }
    if (!suspects) continue;
    const who = indexes(suspects);
    if (who.length === 0) throw new Error('a spoiled piece needs a cause that could have spoiled it');
    const { sign, share } = signOf(present, suspects);
    const key = `${who.join()} ${sign} ${share}`;
    const pattern = patterns.get(key) ?? { suspects: who, sign, share, count: 0, lost: 0 };
    pattern.count += count;
    pattern.lost += lost;
    patterns.set(key, pattern);
  }
  const sum = (of: readonly Observation[]) => of.reduce((all, { count }) => all + count, 0);
  return {
    causes: groups.map((members, n) => {
      const kind = kindOf(members[0]!);
      return {
        key: members[0]!,
        kind,
        members,
        pieces: pieces[n]!,
        seconds: seconds[n]!,
        prior: priors[kind],
      };
    }),
    patterns: [...patterns.values()].map(({ lost, ...it }) => ({ ...it, lostEach: lost / it.count })),
    references,
    pieces: sum(observed),
    seconds: sum(observed.filter(({ suspects }) => suspects)),
  };
}
