/** The slices of a family: which file holds which range of characters. */
import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import decompress from 'woff2-encoder/decompress';
import type { Family } from './families.ts';

const { resolve } = createRequire(import.meta.url);

export interface Slice {
  readonly family: Family;
  /** Unique among all slices. */
  readonly id: string;
  /** First and last code points in turn, rising; undefined where the file must be looked into. */
  readonly ranges: readonly (readonly [number, number])[] | undefined;
}

const known = new Map<Family, readonly Slice[]>();

export function slicesOf(family: Family): readonly Slice[] {
  const before = known.get(family);
  if (before) return before;
  const ranges = JSON.parse(readFileSync(resolve(`${family.npm}/unicode.json`), 'utf8')) as Record<
    string,
    string
  >;
  const names = family.slices ?? Object.keys(ranges);
  const slices = names.map((name) => ({
    family,
    id: `${family.file}-${name.replace(/[[\]]/g, '')}`,
    ranges: family.looked ? undefined : rangesOf(ranges[name] ?? ''),
  }));
  known.set(family, slices);
  return slices;
}

/** From the form of CSS: 'U+0102-0103,U+0110'. */
function rangesOf(css: string): [number, number][] {
  return css
    .split(',')
    .filter((each) => each !== '')
    .map((each): [number, number] => {
      const [first, last = first] = each
        .trim()
        .replace(/^U\+/i, '')
        .split('-')
        .map((hex) => Number.parseInt(hex, 16));
      return [first!, last!];
    });
}

export const mayHold = ({ ranges }: Slice, codePoint: number): boolean =>
  ranges === undefined || ranges.some(([first, last]) => first <= codePoint && codePoint <= last);

/** The slice's font as TrueType. */
export async function readSlice({ family, id }: Slice): Promise<Uint8Array> {
  const file = `${id}-${family.variable ? 'wght' : '400'}-normal.woff2`;
  return decompress(await readFile(resolve(`${family.npm}/files/${file}`)));
}
