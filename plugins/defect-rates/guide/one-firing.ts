/** Whether most of a fault came out of one firing: then what happened there comes before everything else. */
import type { Ask } from '../../../server/contract/plugin.ts';
import type { Asked } from '../asked.ts';
import { byFiring } from '../sums.ts';

export interface OneFiring {
  readonly firing: string;
  readonly label: string;
  readonly affected: number;
}

/** Fewer than this are no cluster. */
const SOME = 3;

export async function mostInOneFiring(ask: Ask, of: Asked): Promise<OneFiring | undefined> {
  const { sql, params } = byFiring(of, 'all');
  const [found] = await ask.query<OneFiring & { whole: number }>(
    `SELECT f.firing, coalesce(n.name, f.firing) AS label, f.y AS affected, sum(f.y) OVER () AS whole
     FROM (${sql}) f LEFT JOIN firing_names n ON n.id = f.firing ORDER BY f.y DESC, f.firing LIMIT 1`,
    params,
  );
  if (!found || found.affected < SOME || found.affected * 2 < found.whole) return undefined;
  const { firing, label, affected } = found;
  return { firing, label, affected };
}
