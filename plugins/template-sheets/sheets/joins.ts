/**
 * How pages join. The page with the higher number is trimmed along the middle of the strip that both show, and laid
 * over its neighbour. Half of each mark stays on either page; marks lean, are labelled once, and stand at uneven
 * places along the strip, so that a wrong page, or the right one turned, does not fit.
 */
import type { Point } from '../piece.ts';
import type { Join, Trim } from './sheet.ts';
import type { Tile } from './tiles.ts';

export type Numbered = Tile & { readonly page: number };

/** Shares of the strip's length at which its two marks stand: not mirror images of each other. */
const PLACES = [0.21, 0.66] as const;
/** mm that a mark reaches to either side of the line. */
const REACH = 4.5;

interface Strip {
  readonly lower: Numbered;
  readonly higher: Numbered;
  /** Unique in the set. */
  readonly letter: string;
  /** The line along which the higher page is trimmed. */
  readonly from: Point;
  readonly to: Point;
}

/** A, B … Z, AA … from a number. */
function lettersFor(at: number): string {
  const letter = String.fromCharCode(65 + (at % 26));
  return at < 26 ? letter : lettersFor(Math.floor(at / 26) - 1) + letter;
}

function stripsOf(tiles: readonly Numbered[], overlap: number): Strip[] {
  const at = (column: number, row: number) =>
    tiles.find((tile) => tile.column === column && tile.row === row);
  return tiles.flatMap((tile) => {
    const right = at(tile.column + 1, tile.row);
    const below = at(tile.column, tile.row + 1);
    const strips: Strip[] = [];
    // Numbers only rise along a plane, so two letters for each page are never used twice in a set.
    if (right) {
      const x = right.left + overlap / 2;
      const ends = { from: [x, tile.top] as Point, to: [x, tile.top + tile.height] as Point };
      strips.push({ lower: tile, higher: right, letter: lettersFor(2 * (tile.page - 1)), ...ends });
    }
    if (below) {
      const y = below.top + overlap / 2;
      const ends = { from: [tile.left, y] as Point, to: [tile.left + tile.width, y] as Point };
      strips.push({ lower: tile, higher: below, letter: lettersFor(2 * (tile.page - 1) + 1), ...ends });
    }
    return strips;
  });
}

const touching = (strip: Strip, tile: Numbered): boolean =>
  strip.lower.page === tile.page || strip.higher.page === tile.page;

export function joinsOf(tile: Numbered, tiles: readonly Numbered[], overlap: number): Join[] {
  return stripsOf(tiles, overlap)
    .filter((strip) => touching(strip, tile))
    .flatMap((strip) => {
      const to = strip.lower.page === tile.page ? strip.higher.page : strip.lower.page;
      return PLACES.map((share, mark) => ({
        label: `${strip.letter}${mark + 1}`,
        ...markAt(strip, share, mark),
        to,
      }));
    });
}

/** A leaning arrow across the strip's line. */
function markAt({ from, to }: Strip, share: number, mark: number): Pick<Join, 'at' | 'arrow'> {
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const along: Point = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  // Across the line, towards the higher page: right of a line that runs down, below one that runs right.
  const across: Point = [Math.abs(along[1]), Math.abs(along[0])];
  const at: Point = [from[0] + along[0] * long * share, from[1] + along[1] * long * share];
  const spot = (a: number, b: number): Point => [
    at[0] + along[0] * a + across[0] * b,
    at[1] + along[1] * a + across[1] * b,
  ];
  const wide = mark === 0 ? 3 : 5;
  return { at, arrow: [spot(-wide, -REACH), spot(1.5, -REACH), spot(0.6 * wide, REACH)] };
}

export function trimsOf(tile: Numbered, tiles: readonly Numbered[], overlap: number): Trim[] {
  return stripsOf(tiles, overlap)
    .filter((strip) => touching(strip, tile))
    .map((strip) => ({
      from: strip.from,
      to: strip.to,
      cut: strip.higher.page === tile.page,
      neighbour: strip.higher.page === tile.page ? strip.lower.page : strip.higher.page,
    }));
}
