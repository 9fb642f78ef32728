/** When a kiln has usually been drawn: what was done before, and no word on when it may be opened. */
import type { Ask } from '../../contract/plugin.ts';

/** Firings that are looked back on, and the fewest that say anything. */
const BACK = 12;
const FEWEST = 3;

const HOUR = 3_600_000;

/** The day so many days before: '2026-05-01'. */
export const daysBefore = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) - days * 24 * HOUR).toISOString().slice(0, 10);

/** Hours from the end of the firing to its drawing, the middle of those that are known to the minute. */
export function middleHours(
  past: readonly { readonly ended: string; readonly drawn: string }[],
): number | null {
  const hours = past
    .filter(({ ended, drawn }) => ended.length > 10 && drawn.length > 10)
    .map(({ ended, drawn }) => (Date.parse(drawn) - Date.parse(ended)) / HOUR)
    .filter((h) => h > 0)
    .sort((a, b) => a - b);
  return hours.length < FEWEST ? null : hours[Math.floor((hours.length - 1) / 2)]!;
}

/** The moment at which this kiln was usually drawn after such a firing; null where too little is known. */
export async function usuallyDrawn(
  ask: Ask,
  firing: { readonly kiln: string; readonly role: string; readonly at: string },
): Promise<string | null> {
  if (firing.at.length <= 10) return null;
  const past = await ask.query<{ ended: string; drawn: string }>(
    `SELECT ended_at AS ended, drawn_at AS drawn FROM firings
     WHERE kiln = ? AND role = ? AND state = 'drawn' AND ended_at IS NOT NULL AND drawn_at IS NOT NULL
     ORDER BY changed_seq DESC LIMIT ${BACK}`,
    [firing.kiln, firing.role],
  );
  const hours = middleHours(past);
  return hours === null ? null : new Date(Date.parse(firing.at) + hours * HOUR).toISOString();
}
