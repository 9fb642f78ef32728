/** What every tally can be asked: a period, whose ware, which kind of firing. */
import { z } from 'zod';

export const OWNERS = ['own', 'commission', 'student', 'hire'] as const;

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
export const periodInput = z.strictObject(period);
export const roleInput = z.strictObject({ ...period, role: z.enum(['bisque', 'glaze']).default('glaze') });
export type Asked = z.infer<typeof periodInput> & { role?: 'bisque' | 'glaze' };
