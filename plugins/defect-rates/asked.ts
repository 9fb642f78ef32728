/** What every rate can be asked for: a period, whose ware, which of a piece's firings, and which outcome. */
import { z } from 'zod';
import { period } from '../../server/contract/reports/period.ts';
import { handleOf, word } from '../../server/contract/studio/values.ts';

export const outcome = {
  /** `seconds` (seconds and wasters), `wasters`, or a fault. */
  outcome: word.default('seconds'),
  /** A piece's first inspected glaze firing, or all of them. */
  firing: z.enum(['first', 'all']).default('first'),
};

export const role = { role: z.enum(['bisque', 'glaze']).default('glaze') };

/** A glaze, clay, schedule or kiln by its name or its handle. */
export const material = z.string().trim().min(1).max(120).transform(handleOf);

export const rateInput = z.strictObject({ ...period, ...outcome });
export const roleInput = z.strictObject({ ...period, ...outcome, ...role });

export interface Asked {
  readonly from?: string;
  readonly to?: string;
  readonly owners: readonly string[];
  readonly outcome: string;
  readonly firing: 'first' | 'all';
  readonly role?: 'bisque' | 'glaze';
}

/** Another report of this plugin, of the same time, ware and outcome; fields that the caller adds itself are left out. */
export function linkTo(
  report: string,
  of: Asked,
  more: Readonly<Record<string, string>>,
  without: readonly string[] = [],
): string {
  const query = new URLSearchParams({
    outcome: of.outcome,
    firing: of.firing,
    owners: of.owners.join(','),
    ...(of.from ? { from: of.from } : {}),
    ...(of.to ? { to: of.to } : {}),
    ...more,
  });
  for (const field of without) query.delete(field);
  return `/review/defect-rates/${report}?${query}`;
}

/** The outcome in the middle of a sentence. */
export function outcomeName(id: string): string {
  if (id === 'seconds') return 'seconds and wasters';
  return id.replaceAll('-', ' ');
}
