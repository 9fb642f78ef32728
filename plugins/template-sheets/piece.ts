/**
 * What a form comes apart into: flat pieces, in mm. The y axis points down, as on paper. Curves are given as
 * points close enough together (`shape/arc.ts`) that the chords leave the true curve by no more than 0.005 mm.
 */

/** [x, y] in mm. */
export type Point = readonly [x: number, y: number];

/** How a line is to be read: cut through, folded or scored, bevelled up to, or only marked. */
export type Pen = 'cut' | 'fold' | 'bevel' | 'mark';

/** A stretch of a piece's rim that has a name and a length of its own. */
export interface Edge {
  readonly name: string;
  /** mm, by the form's formula; joint allowances are not counted. */
  readonly length: number;
  /** The points it runs along, from which its drawn length is checked. */
  readonly along: readonly Point[];
  readonly closed?: boolean;
  /** Edges of the same joint meet when the pot is put together. */
  readonly joins?: {
    readonly joint: string;
    /** Side of the joint: the lengths of each side add up to the same. */
    readonly side: 'a' | 'b';
    /** mm on the middle of the wall, where the two sides are compared. */
    readonly length: number;
  };
}

export interface Line {
  readonly pen: Exclude<Pen, 'cut'>;
  readonly points: readonly Point[];
  readonly closed?: boolean;
}

export interface Piece {
  /** Unique in its set. */
  readonly name: string;
  /** How many are cut from clay with it. */
  readonly count: number;
  /** The cut line, closed; the first point is not repeated. Joint allowances lie within it. */
  readonly outline: readonly Point[];
  /** Closed cut lines within the outline. */
  readonly holes: readonly (readonly Point[])[];
  readonly lines: readonly Line[];
  readonly edges: readonly Edge[];
  /** Short sentences to be printed on the piece. */
  readonly notes: readonly string[];
  /** Of a set of sizes: which size it is, and what it is in each of them. */
  readonly inSet?: { readonly size: string; readonly piece: string };
  /** The smaller sizes that are drawn inside it, the largest of them first (`sheets/nests.ts`). */
  readonly within?: readonly Piece[];
}

/** What is known of a form by formula, beside its pieces; in mm, mm² and mm³. */
export interface Facts {
  /** Of a frustum's or tapered pot's pattern; null where the sides are straight and there is no apex. */
  readonly innerRadius?: number | null;
  readonly outerRadius?: number | null;
  /** Degrees. */
  readonly angle?: number;
  /** Of the walls on the middle of the clay, allowances and base not counted. */
  readonly area: number;
  /** Inside the middle of the wall. */
  readonly volume?: number;
}

export interface Development {
  readonly pieces: readonly Piece[];
  readonly facts: Facts;
}
