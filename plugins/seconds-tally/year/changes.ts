/** What changed since the year before: all ware together, then each glaze, clay, schedule and fault. */

import type { Ask } from '../../../server/contract/plugin.ts';
import { opened } from '../../../server/contract/reports/words.ts';
import { pooledDispersion } from '../../../server/contract/statistics/cluster.ts';
import type { Group } from '../../../server/contract/statistics/groups.ts';
import { type Compared, compare, comparedSaid, type Finding, findingOf, findingsOf } from './compared.ts';
import { type By, groupsIn, noneOf } from './groups.ts';
import type { YearSpan } from './span.ts';

export interface Change {
  readonly what: 'all' | 'glaze' | 'clay' | 'bisque schedule' | 'glaze schedule' | 'fault';
  readonly key: string;
  readonly label: string;
  readonly compared: Compared;
  readonly finding: Finding;
  readonly q: number | null;
  readonly says: string;
}

export type NameOf = (kind: 'glaze' | 'clay' | 'schedule', id: string) => string;

const KINDS: readonly { readonly by: By; readonly what: Change['what'] }[] = [
  { by: 'glaze', what: 'glaze' },
  { by: 'clay', what: 'clay' },
  { by: 'bisque', what: 'bisque schedule' },
  { by: 'schedule', what: 'glaze schedule' },
  { by: 'fault', what: 'fault' },
];

function labelOf(by: By, key: string, name: NameOf): string {
  if (by === 'fault') return opened(key);
  return name(by === 'bisque' ? 'schedule' : (by as 'glaze' | 'clay' | 'schedule'), key);
}

interface Found {
  readonly by: By;
  readonly what: Change['what'];
  readonly key: string;
  readonly compared: Compared;
}

/** Only what was there in both years can have changed; a fault that was not found counts as none. */
function pairs(by: By, what: Change['what'], now: readonly Group[], before: readonly Group[]): Found[] {
  const then = new Map(before.map((group) => [group.key, group]));
  const here = new Map(now.map((group) => [group.key, group]));
  const keys = [...new Set([...here.keys(), ...then.keys()])].sort();
  const [someNow, someBefore] = [now[0], before[0]];
  const dispersion = pooledDispersion([...now, ...before]);
  return keys.flatMap((key) => {
    const a = here.get(key) ?? (by === 'fault' && someNow ? noneOf(someNow) : undefined);
    const b = then.get(key) ?? (by === 'fault' && someBefore ? noneOf(someBefore) : undefined);
    return a && b ? [{ by, what, key, compared: compare({ now: a, before: b }, dispersion) }] : [];
  });
}

/** The largest first: what is beyond chance, then the rest by the size of the difference. */
const rankOf = ({ finding }: Change): number => (finding === 'more' || finding === 'fewer' ? 0 : 1);

export async function changes(
  ask: Ask,
  span: YearSpan,
  owners: readonly string[],
  name: NameOf,
): Promise<{ all?: Change; each: Change[] }> {
  const both = async (by: By) =>
    Promise.all([
      groupsIn(ask, by, { from: span.from, to: span.until }, owners),
      groupsIn(ask, by, span.before, owners),
    ]);
  const [[nowAll, beforeAll], ...kinds] = await Promise.all([
    both('out'),
    ...KINDS.map(({ by }) => both(by)),
  ]);
  const found = kinds.flatMap(([now, before], n) => pairs(KINDS[n]!.by, KINDS[n]!.what, now, before));
  const findings = findingsOf(found.map(({ compared }) => compared));
  const each = found
    .map(({ by, what, key, compared }, n): Change => {
      const { finding, q } = findings[n]!;
      return {
        what,
        key,
        label: labelOf(by, key, name),
        compared,
        finding,
        q,
        says: comparedSaid(compared, finding),
      };
    })
    .toSorted(
      (x, y) =>
        rankOf(x) - rankOf(y) ||
        Math.abs(y.compared.difference) - Math.abs(x.compared.difference) ||
        x.label.localeCompare(y.label),
    );
  const [now, before] = [nowAll[0], beforeAll[0]];
  if (!now || !before) return { each };
  const compared = compare({ now, before });
  const finding = findingOf(compared);
  return {
    all: {
      what: 'all',
      key: '',
      label: 'all ware',
      compared,
      finding,
      q: null,
      says: comparedSaid(compared, finding),
    },
    each,
  };
}
