/** From flat pieces to checked pages. */
import type { Development, Piece } from '../piece.ts';
import { boxOf, heightOf, widthOf } from '../shape/measure.ts';
import { checksOf } from './checks.ts';
import { cutUp } from './cut-up.ts';
import { layOut } from './lay-out.ts';
import { bySize, nested } from './nests.ts';
import { isRoll, pageOn, windowOf } from './paper.ts';
import type { Page, Paper, Plane, Sheets } from './sheet.ts';

/** A set of more pages than this is for a larger paper. */
export const MOST_PAGES = 80;

export type SheetsMade = { readonly sheets: Sheets } | { readonly wrong: readonly string[] };

/** @param nesting of a set: its sizes inside one another, or each on sheets of its own */
export function sheetsFor(made: Development, paper: Paper, nesting = false): SheetsMade {
  const page = pageOn(paper);
  const least = leastPages(made, page);
  if (least > MOST_PAGES) return { wrong: [tooMany(least, paper)] };
  const planes = planesFor(made.pieces, page, nesting);
  const cut = cutUp(planes, page);
  if (cut.sheets.length > MOST_PAGES) return { wrong: [tooMany(cut.sheets.length, paper)] };
  return { sheets: { ...cut, checks: checksOf(made, planes, cut.page, cut.sheets) } };
}

function planesFor(pieces: readonly Piece[], page: Page, nesting: boolean): Plane[] {
  if (nesting) return layOut(nested(pieces), page);
  // A roll has no sheets to keep apart.
  const sizes = isRoll(page.paper) ? [pieces] : bySize(pieces);
  return sizes.flatMap((own) => {
    const size = sizes.length > 1 ? own[0]!.inSet?.size : undefined;
    return layOut(own, page).map((plane) => (size === undefined ? plane : { ...plane, size }));
  });
}

const tooMany = (pages: number, paper: Paper): string =>
  `This would take ${Math.ceil(pages)} pages of ${paper.name}, and at most ${MOST_PAGES} go into a set; choose a larger paper, or fewer pieces.`;

/** Before anything is laid out: the area of the largest piece's box in pages. */
function leastPages({ pieces }: Development, page: Page): number {
  if (isRoll(page.paper)) return 1;
  const { width, height } = windowOf(page);
  return Math.max(
    ...pieces.map(
      ({ outline }) => (widthOf(boxOf(outline)) * heightOf(boxOf(outline))) / (2 * width * height),
    ),
  );
}
