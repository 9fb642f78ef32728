/**
 * The formats of the letter post: P, G and E (Universal Postal Convention, Regulations, limits of size and
 * weight of the formats: from memory; the general limits of a letter item: article on limits of size).
 */
import type { Format, Measures } from '../values.ts';

interface Limits {
  readonly weight: number;
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
}

const SMALL: Readonly<Record<'P' | 'G', Limits>> = {
  P: { weight: 100, length: 245, width: 165, thickness: 5 },
  G: { weight: 500, length: 381, width: 305, thickness: 20 },
};
/** g; mm. Length, width and thickness together, and the longest of them. */
const LETTER = { weight: 2_000, together: 900, longest: 600 };
/** The face must not be smaller, within 2 mm. */
const SMALLEST = { length: 140, width: 90, slack: 2 };

export interface Fitted {
  /** None: it goes as a parcel, or not at all. */
  readonly format?: Format;
  /** Why it is in no smaller format, a sentence each. */
  readonly why: readonly string[];
}

/** Longest first. */
export const inOrder = ({ length, width, thickness }: Measures): [number, number, number] =>
  [length, width, thickness].sort((a, b) => b - a) as [number, number, number];

const mm = (value: number): string => `${Math.round(value * 10) / 10} mm`;

function above(format: string, weight: number, [l, w, t]: readonly number[], limits: Limits): string[] {
  return [
    ...(weight > limits.weight ? [`${format}: it weighs ${weight} g, at most ${limits.weight} g`] : []),
    ...(l! > limits.length ? [`${format}: it is ${mm(l!)} long, at most ${mm(limits.length)}`] : []),
    ...(w! > limits.width ? [`${format}: it is ${mm(w!)} wide, at most ${mm(limits.width)}`] : []),
    ...(t! > limits.thickness ? [`${format}: it is ${mm(t!)} thick, at most ${mm(limits.thickness)}`] : []),
  ];
}

/** @param weight g, packed */
export function formatOf(weight: number, size: Measures): Fitted {
  const sides = inOrder(size);
  const [length, width] = sides;
  if (length < SMALLEST.length - SMALLEST.slack || width < SMALLEST.width - SMALLEST.slack)
    return {
      why: [
        `its face is ${mm(length)} by ${mm(width)}, and must be ${SMALLEST.length} by ${SMALLEST.width} mm at least: put it in a larger bag`,
      ],
    };
  const why: string[] = [];
  for (const format of ['P', 'G'] as const) {
    const found = above(format, weight, sides, SMALL[format]);
    if (found.length === 0) return { format, why };
    why.push(...found);
  }
  const together = sides.reduce((sum, side) => sum + side, 0);
  if (weight > LETTER.weight) why.push(`E: it weighs ${weight} g, at most ${LETTER.weight} g`);
  if (length > LETTER.longest) why.push(`E: it is ${mm(length)} long, at most ${LETTER.longest} mm`);
  if (together > LETTER.together)
    why.push(`E: its sides come to ${mm(together)}, at most ${LETTER.together} mm`);
  return why.some((one) => one.startsWith('E:')) ? { why } : { format: 'E', why };
}
