/** Whether most of a fault came out of one firing: then what happened there comes before everything else. */
import type { Ask } from '../../../server/contract/plugin.ts';
import { firingNames } from '../../../server/contract/reports/names.ts';
import type { Asked } from '../asked.ts';
import { firings } from '../sums.ts';

export interface OneFiring {
  readonly firing: string;
  readonly label: string;
  readonly affected: number;
}

/** Fewer than this are no cluster. */
const SOME = 3;

export async function mostInOneFiring(ask: Ask, of: Asked): Promise<OneFiring | undefined> {
  const all = await firings(ask, of, { by: 'all', key: '' });
  const whole = all.reduce((sum, { y }) => sum + y, 0);
  const [most] = all.toSorted((x, y) => y.y - x.y || (x.firing < y.firing ? -1 : 1));
  if (!most || most.y < SOME || most.y * 2 < whole) return undefined;
  const name = await firingNames(ask, [most.firing]);
  return { firing: most.firing, label: name(most.firing), affected: most.y };
}
