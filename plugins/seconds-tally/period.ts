/** What every tally can be asked: a period, whose ware, which kind of firing. */
import { z } from 'zod';
import { period } from '../../server/contract/reports/period.ts';

export const periodInput = z.strictObject(period);
export const roleInput = z.strictObject({ ...period, role: z.enum(['bisque', 'glaze']).default('glaze') });
export type Asked = z.infer<typeof periodInput> & { role?: 'bisque' | 'glaze' };
