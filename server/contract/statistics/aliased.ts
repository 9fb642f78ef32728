import { rank } from './matrix.ts';

/** One factor of a model with its columns (dummies of its levels, or a measure). */
export interface Factor {
  readonly name: string;
  readonly columns: readonly (readonly number[])[];
}

/**
 * Factors that the data cannot tell apart: found by rank. First a single factor that does not
 * vary, then pairs, then whatever depends on the others together. Empty where all can be told apart.
 */
export function aliased(factors: readonly Factor[]): string[] {
  const rows = factors[0]?.columns[0]?.length ?? 0;
  const one = new Array<number>(rows).fill(1);
  const columns = (some: readonly Factor[]) => some.flatMap((factor) => factor.columns);
  const lacks = (some: readonly Factor[]) => rank([one, ...columns(some)]) < 1 + columns(some).length;
  if (!lacks(factors)) return [];
  const single = factors.filter((factor) => lacks([factor]));
  if (single.length > 0) return single.map(({ name }) => name);
  for (const [n, first] of factors.entries())
    for (const second of factors.slice(n + 1)) if (lacks([first, second])) return [first.name, second.name];
  return factors.filter((factor) => entangled(factor, factors, one)).map(({ name }) => name);
}

/** Leaving the factor out costs less rank than it has columns. */
function entangled(factor: Factor, factors: readonly Factor[], one: readonly number[]): boolean {
  const all = factors.flatMap((it) => it.columns);
  const others = factors.filter((it) => it !== factor).flatMap((it) => it.columns);
  return rank([one, ...all]) - rank([one, ...others]) < factor.columns.length;
}

/** Why no odds are given; undefined where nothing stands in the way. */
export function refusalOf(factors: readonly Factor[]): string | undefined {
  const names = aliased(factors);
  if (names.length === 0) return undefined;
  if (names.length === 1) return `Only one kind of ${names[0]} occurs: its part cannot be told.`;
  const list = `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  return `The record cannot tell ${list} apart: they always change together.`;
}
