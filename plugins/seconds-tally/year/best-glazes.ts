/** Which glazes came out best, honest for small numbers. */

import type { Ask } from '../../../server/contract/plugin.ts';
import { between, listed, plural } from '../../../server/contract/reports/words.ts';
import { FEW_FIRINGS } from '../../../server/contract/statistics/cluster.ts';
import { type Reckoned, reckon } from '../../../server/contract/statistics/groups.ts';
import type { NameOf } from './changes.ts';
import { groupsIn } from './groups.ts';
import type { YearSpan } from './span.ts';

export interface BestGlaze extends Reckoned {
  readonly label: string;
  readonly verdict: string;
  /** Better than other ware, beyond chance. */
  readonly sure: boolean;
}

/** Of so many comparisons, one in twenty that is called better may be so by chance. */
const FALSE_ALARMS = 0.05;

function verdictOf(row: Reckoned): { sure: boolean; verdict: string } {
  if (row.firings < FEW_FIRINGS)
    return { sure: false, verdict: `too few to say, from ${plural(row.firings, 'firing')}` };
  const told = row.clusterQ !== null && row.clusterQ < FALSE_ALARMS;
  if (told && !row.worse) return { sure: true, verdict: 'better than the rest, beyond chance' };
  if (told) return { sure: false, verdict: 'worse than the rest, beyond chance' };
  return { sure: false, verdict: 'can’t be told from the rest' };
}

/** All glazes by their evened-out rate as they came out of the first glaze firing, the lowest first. */
export async function bestGlazes(
  ask: Ask,
  { from, until }: YearSpan,
  owners: readonly string[],
  name: NameOf,
): Promise<BestGlaze[]> {
  const span = { from, to: until };
  const [[all], glazes] = await Promise.all([
    groupsIn(ask, 'out', span, owners),
    groupsIn(ask, 'glaze', span, owners),
  ]);
  if (!all) return [];
  return reckon(all, glazes)
    .map((row) => ({ ...row, label: name('glaze', row.key), ...verdictOf(row) }))
    .toSorted((x, y) => Number(y.sure) - Number(x.sure) || x.even - y.even || x.label.localeCompare(y.label));
}

/** '12 of 240; between 3 % and 8 % is believable'. */
export const rateSaid = ({ affected, pieces, believable }: Reckoned): string =>
  `${affected} of ${pieces}; ${between(believable)}`;

/** Which of them are called better, and how sure that is. */
export function bestSaid(glazes: readonly BestGlaze[]): string {
  const sure = glazes.filter((glaze) => glaze.sure);
  if (glazes.length < 2) return 'There are not two glazes to tell apart.';
  if (sure.length === 0)
    return 'None of the glazes can be called better than the rest beyond chance; this is only their order.';
  return `Better than the rest, beyond chance: ${listed(sure.slice(0, 3).map((glaze) => `${glaze.label} (${rateSaid(glaze)})`))}.`;
}
