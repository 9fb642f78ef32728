/**
 * What comes out of the printer: pieces placed on a plane, and the plane cut into pages. All in mm; a page's origin is
 * its upper left corner, y down. Whatever draws a sheet draws `lines`, `texts` and `joins` as they stand.
 */
import type { Pen, Piece, Point } from '../piece.ts';

export interface Paper {
  readonly name: string;
  readonly width: number;
  readonly height: number;
}

/** How the page is divided. */
export interface Page {
  readonly paper: Paper;
  /** Where home printers print nothing. */
  readonly margin: number;
  /** Kept free within the margins for title, ruler and page number. */
  readonly head: number;
  readonly foot: number;
  /** By which neighbouring pages show the same. */
  readonly overlap: number;
}

export interface Plane {
  readonly columns: number;
  readonly rows: number;
  readonly placed: readonly Piece[];
  /** Of a set whose sizes have sheets of their own. */
  readonly size?: string;
}

/** A line as it is to be drawn on the page: cut off at the window already. */
export interface SheetLine {
  readonly pen: Pen;
  readonly points: readonly Point[];
  readonly closed: boolean;
  /** In a nest: which size it is of, the largest being 0. */
  readonly nth?: number;
}

/** The name of a size, on a line of it. */
export interface SizeLabel {
  readonly text: string;
  /** Its middle. */
  readonly at: Point;
  /** Degrees clockwise, along the line. */
  readonly turn: number;
  /** Height of the letters, mm. */
  readonly size: number;
}

export interface SheetText {
  readonly text: string;
  /** Middle of the line of text. */
  readonly at: Point;
  /** Height of the letters, mm. */
  readonly size: number;
  /** Room for it, mm. */
  readonly width: number;
}

/**
 * A mark in the overlap of two pages, drawn on both at the same place of the plane: it fits its fellow in one way only,
 * as its label is used once, its shape leans, and no two marks of a page stand alike.
 */
export interface Join {
  readonly label: string;
  readonly at: Point;
  /** The arrow's corners; it points to the page with the higher number. */
  readonly arrow: readonly Point[];
  /** The page it joins this one to, from 1. */
  readonly to: number;
}

export interface Sheet {
  /** From 1. */
  readonly page: number;
  readonly pages: number;
  readonly plane: number;
  /** Of a set whose sizes have sheets of their own. */
  readonly size?: string;
  /** Place among the plane's pages, from 0. */
  readonly column: number;
  readonly row: number;
  /** The part of the page that pieces are drawn on. */
  readonly window: {
    readonly left: number;
    readonly top: number;
    readonly width: number;
    readonly height: number;
  };
  /** The plane's point that lies at the window's upper left. */
  readonly origin: Point;
  readonly lines: readonly SheetLine[];
  readonly texts: readonly SheetText[];
  readonly labels: readonly SizeLabel[];
  readonly joins: readonly Join[];
  readonly trims: readonly Trim[];
}

/** A line from edge to edge of the window where two pages meet. */
export interface Trim {
  readonly from: Point;
  readonly to: Point;
  /** This page is cut off here and laid over its neighbour; else the neighbour's edge comes to lie here. */
  readonly cut: boolean;
  /** Number of the other page. */
  readonly neighbour: number;
}

/** A small picture of a plane: outlines, and each page's number at its place; mm of the plane. */
export interface MapOfPlane {
  readonly width: number;
  readonly height: number;
  readonly pieces: readonly {
    readonly name: string;
    readonly outline: readonly Point[];
    readonly middle: Point;
  }[];
  readonly pages: readonly {
    readonly page: number;
    readonly left: number;
    readonly top: number;
    readonly width: number;
    readonly height: number;
  }[];
}

export interface Sheets {
  readonly page: Page;
  readonly sheets: readonly Sheet[];
  readonly maps: readonly MapOfPlane[];
  /** What was looked at before the set is given out (`checks.ts`). */
  readonly checks: readonly Check[];
}

export interface Check {
  readonly passed: boolean;
  readonly sentence: string;
}
