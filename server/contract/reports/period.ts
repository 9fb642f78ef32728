/** What every reckoning of ware can be asked for: a time, and whose ware counts. */
import { z } from 'zod';

const OWNERS = ['own', 'commission', 'student', 'hire'] as const;

export const period = {
  from: z.iso.date().optional(),
  to: z.iso.date().optional(),
  /** Whose ware counts, with commas. */
  owners: z
    .string()
    .default('own,commission')
    .transform((text) => text.split(',').map((part) => part.trim()))
    .pipe(z.array(z.enum(OWNERS)).min(1)),
};
