/** What the year can be asked for; neither day: the studio's present year. */
import { z } from 'zod';
import { period } from '../../../server/contract/reports/period.ts';

const wayAbout = (of: { readonly from?: string; readonly to?: string }): boolean =>
  !of.from || !of.to || of.from <= of.to;
const REFUSED = { message: 'a last day that is not before the first', path: ['to'] };

export const yearInput = z.strictObject(period).refine(wayAbout, REFUSED);

export const yearPaperInput = z
  .strictObject({ ...period, paper: z.enum(['A4', 'Letter']).default('A4') })
  .refine(wayAbout, REFUSED);
