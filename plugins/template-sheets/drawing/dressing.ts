/** What a set of sheets says beside its pieces: the maker's words, and what the buyer is told. */
import { z } from 'zod';
import type { Said } from '../../../server/contract/paper.ts';

const line = z.string().trim().max(200);

/** As it comes with a query string; all of it may be left out. */
export const dressingShape = z.strictObject({
  /** Who made it; the studio's name when left out. */
  maker: line.optional(),
  /** What the buyer may do with it. */
  licence: line.optional(),
  /** How to use it, in the maker's own words. */
  howTo: z.string().trim().max(3_000).optional(),
  /** Number of the order that it was sold with. */
  order: z.string().trim().max(60).optional(),
});

export interface Dressing {
  readonly maker: string;
  readonly licence?: string;
  readonly howTo?: Said;
  readonly order?: string;
  /** Of a template that is kept. */
  readonly version?: number;
}
