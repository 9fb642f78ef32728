/** The sizes of a set as they are typed, in percent of the measures; and shrinkage in percent. Pure. */
import type { Spec } from '../../plugins/template-sheets/spec/spec.ts';

export interface SizeDraft {
  readonly name: string;
  readonly percent: string;
}

export const MOST_SIZES = 6;

/** Ten digits: 11.64 % is 0.1164, and not what a division leaves. */
const tidy = (value: number): number => Number(value.toPrecision(10));

export const shareOf = (percent: string): number | undefined =>
  percent.trim() ? tidy(Number(percent) / 100) : undefined;
export const percentOf = (share: number | undefined): string =>
  share === undefined ? '' : String(tidy(share * 100));

/** @param nested drawn inside one another; else each on sheets of its own */
export const sizesOf = (sizes: readonly SizeDraft[], nested: boolean): Pick<Spec, 'sizes' | 'nested'> =>
  sizes.length === 0
    ? {}
    : {
        sizes: sizes.map(({ name, percent }) => ({ name, scale: shareOf(percent) ?? 0 })),
        ...(nested ? { nested } : {}),
      };

export const sizeDrafts = ({ sizes }: Pick<Spec, 'sizes'>): SizeDraft[] =>
  (sizes ?? []).map(({ name, scale }) => ({ name, percent: percentOf(scale) }));
