/** The page of a document and its sizes of type, in mm. */
import { PAPERS, type Paper } from '../../contract/paper.ts';
import type { Drawable } from '../marks.ts';

export interface Measures {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
  /** Of the column of text. */
  readonly inner: number;
  /** Of the column of text. */
  readonly room: number;
}

export type FlowingPaper = Extract<Paper, { form: 'document' }>;

export function measuresOf({ paper, landscape }: Pick<FlowingPaper, 'paper' | 'landscape'>): Measures {
  const { width: short, height: long } = PAPERS[paper];
  const [width, height] = landscape ? [long, short] : [short, long];
  const [left, top, bottom] = [18, 16, 20];
  return { width, height, left, top, bottom, inner: width - 2 * left, room: height - top - bottom };
}

export const SIZES = {
  small: 3.1,
  body: 3.7,
  large: 4.7,
  /** Headings by level. */
  1: 7,
  2: 5.2,
  3: 4.2,
} as const;

export const LEADING = 1.32;

/** Part of a block that is not broken over pages. Its marks begin at 0, 0. */
export interface Strip {
  readonly height: number;
  /** Left out at the top of a page. */
  readonly before: number;
  readonly marks: readonly Drawable[];
  /** Does not stand last on a page. */
  readonly withNext?: boolean;
  /** Comes again at the top of each page that goes on with this. */
  readonly head?: Strip;
  /** A new page begins here. */
  readonly newPage?: boolean;
}
