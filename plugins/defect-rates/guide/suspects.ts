/** What this studio's own record suspects of a fault, the likeliest first, respecting small numbers. */
import type { Ask } from '../../../server/contract/plugin.ts';
import { benjaminiHochberg } from '../../../server/contract/statistics/benjamini-hochberg.ts';
import { type Clustered, FEW_FIRINGS } from '../../../server/contract/statistics/cluster.ts';
import { type Reckoned, reckon } from '../../../server/contract/statistics/groups.ts';
import type { Asked } from '../asked.ts';
import { KINDS, type Kind, type KindName, type Names } from '../kinds.ts';
import { sums, whole } from '../sums.ts';
import { saidOf } from '../wording.ts';
import { type Allowed, allowingFor, FACTORS, type Factor } from './allowed-for.ts';
import { lookedAt } from './looked-at.ts';

/** Of so many comparisons, one in twenty that is called so may be so by chance. */
const FALSE_ALARMS = 0.05;

/** How strongly the record suspects it, the strongest first. */
const FINDINGS = ['holds', 'inseparable', 'beyond-chance', 'not-allowed-for', 'chance', 'few'] as const;
export type Finding = (typeof FINDINGS)[number];

export interface Suspect extends Reckoned {
  readonly by: KindName;
  /** 'glaze', 'bisque schedule' and so on. */
  readonly what: string;
  readonly label: string;
  readonly finding: Finding;
  readonly familyQ: number | null;
  readonly says: string;
  readonly verdict: string;
}

const WHAT: Partial<Record<KindName, string>> = {
  'bisque-schedule': 'bisque schedule',
  schedule: 'glaze schedule',
  layers: 'layering',
  coats: 'coats',
};
const whatOf = (by: KindName): string => WHAT[by] ?? KINDS[by].noun;

const OTHERS: Readonly<Record<Factor, string>> = {
  glaze: 'clay and schedules',
  clay: 'glazes and schedules',
  'bisque-schedule': 'glazes, clay and glaze schedule',
  schedule: 'glazes, clay and bisque schedule',
};

function verdictOf(finding: Finding, by: KindName, firings: number): string {
  const others = OTHERS[by as Factor];
  switch (finding) {
    case 'holds':
      return `goes with it beyond chance, ${others} allowed for`;
    case 'beyond-chance':
      return 'goes with it beyond chance; glazes, clays and schedules are not allowed for';
    case 'inseparable':
      return `goes with it beyond chance, but cannot be told from its ${others}`;
    case 'not-allowed-for':
      return `goes with it, but not beyond chance once ${others} are allowed for`;
    case 'chance':
      return 'no more than chance would give';
    case 'few':
      return `too few to say, from ${firings} ${firings === 1 ? 'firing' : 'firings'}`;
  }
}

const FROM_ALLOWED: Readonly<Record<Allowed, Finding>> = {
  holds: 'holds',
  not: 'not-allowed-for',
  inseparable: 'inseparable',
};

const isFactor = (by: KindName): by is Factor => (FACTORS as readonly string[]).includes(by);

interface Looked {
  readonly by: KindName;
  readonly row: Reckoned;
}

/** One layer alone is the glaze itself, which stands in a row of its own. */
const isOwn = ({ by, row }: Looked): boolean => by !== 'layers' || row.key.includes('>');

async function looked(ask: Ask, of: Asked, all: Clustered, by: KindName): Promise<Looked[]> {
  const kind: Kind = KINDS[by];
  const bisque = kind.bisque === true;
  const [own, groups] = await Promise.all([
    bisque ? whole(ask, of, true) : Promise.resolve(all),
    sums(ask, of, by, bisque),
  ]);
  // With one clay there is nothing to tell it from.
  return groups.length < 2
    ? []
    : reckon(own, groups)
        .map((row) => ({ by, row }))
        .filter(isOwn);
}

export async function suspects(ask: Ask, of: Asked, all: Clustered, names: Names): Promise<Suspect[]> {
  const found = (await Promise.all(lookedAt(of.outcome).map((by) => looked(ask, of, all, by)))).flat();
  const isFew = ({ row }: Looked) => row.firings < FEW_FIRINGS;
  const q = benjaminiHochberg(found.map((it) => (isFew(it) ? null : it.row.clusterP)));
  const allowed = allowingFor(ask, of);
  const rows: Suspect[] = [];
  for (const [n, it] of found.entries()) {
    const { by, row } = it;
    if (!row.worse || row.affected === 0) continue;
    const familyQ = q[n] ?? null;
    let finding: Finding = isFew(it) ? 'few' : 'chance';
    if (finding === 'chance' && familyQ !== null && familyQ < FALSE_ALARMS)
      finding = isFactor(by) ? FROM_ALLOWED[await allowed(by, row.key)] : 'beyond-chance';
    rows.push({
      ...row,
      by,
      what: whatOf(by),
      label: KINDS[by].label(row.key, names),
      finding,
      familyQ,
      says: saidOf(row),
      verdict: verdictOf(finding, by, row.firings),
    });
  }
  return rows.toSorted(
    (x, y) =>
      FINDINGS.indexOf(x.finding) - FINDINGS.indexOf(y.finding) ||
      y.even - x.even ||
      x.label.localeCompare(y.label),
  );
}
