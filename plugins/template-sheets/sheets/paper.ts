/** Papers that buyers print on, and how a page is divided. */
import type { Page, Paper } from './sheet.ts';

const INCH = 25.4;

/** ISO 216 and ANSI Y14.1 sizes, upright; mm. */
export const PAPERS = {
  A4: { name: 'A4', width: 210, height: 297 },
  A3: { name: 'A3', width: 297, height: 420 },
  Letter: { name: 'Letter', width: 8.5 * INCH, height: 11 * INCH },
  Tabloid: { name: 'Tabloid', width: 11 * INCH, height: 17 * INCH },
} as const satisfies Record<string, Paper>;
export type PaperName = keyof typeof PAPERS;

/** A roll is as long as it need be. */
export const LONGEST_ROLL = 20_000;
export const isRoll = (paper: Paper): boolean => paper.height === Number.POSITIVE_INFINITY;
export const rollOf = (width: number): Paper => ({
  name: `Roll ${width} mm`,
  width,
  height: Number.POSITIVE_INFINITY,
});

/** A paper by its name: 'A4', or 'roll 610' for a roll 610 mm wide. Case does not matter. */
export function paperNamed(name: string): Paper | undefined {
  const known = Object.values(PAPERS).find((paper) => paper.name.toLowerCase() === name.trim().toLowerCase());
  if (known) return known;
  const width = Number(/^roll[ -]?(\d+(?:\.\d+)?)(?: ?mm)?$/i.exec(name.trim())?.[1]);
  return width >= 200 && width <= 2_000 ? rollOf(width) : undefined;
}

export const PAPER_NAMES = 'A4, A3, Letter, Tabloid, or a roll from 200 to 2000 mm wide like “roll 610”';

export const pageOn = (paper: Paper): Page => ({ paper, margin: 8, head: 8, foot: 18, overlap: 12 });

/** The part of a page that pieces are drawn on. */
export const windowOf = ({ paper, margin, head, foot }: Page) => ({
  left: margin,
  top: margin + head,
  width: paper.width - 2 * margin,
  height: paper.height - 2 * margin - head - foot,
});
