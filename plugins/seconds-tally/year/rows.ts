/** The year as rows: each `kind` is a part of the page, and every number is given once. */
import { between, opened } from '../../../server/contract/reports/words.ts';
import { type BestGlaze, rateSaid } from './best-glazes.ts';
import type { Change } from './changes.ts';
import type { Mending } from './mending.ts';
import type { YearSpan } from './span.ts';
import type { Totals } from './totals.ts';

type Row = Record<string, unknown>;

/** Where the pieces behind a number of this year are. */
export function behindIn({ from, until }: YearSpan, owners: readonly string[]) {
  return (of: Readonly<Record<string, string>>): string =>
    `/review/seconds-tally/pieces?${new URLSearchParams({ ...of, from, to: until, owners: owners.join(',') })}`;
}
type Behind = ReturnType<typeof behindIn>;

const share = (part: number, whole: number): number | null => (whole > 0 ? part / whole : null);

const GRADES = [
  ['firsts', 'Firsts', 'first'],
  ['seconds', 'Seconds', 'second'],
  ['wasters', 'Wasters', 'waster'],
] as const;

export function gradeRows({ now, before }: Totals, behind: Behind): Row[] {
  return GRADES.map(([key, label, grade]) => ({
    kind: 'grade',
    key,
    label,
    pieces: now[key],
    share: share(now[key], now.pieces),
    piecesBefore: before[key],
    shareBefore: share(before[key], before.pieces),
    piecesBehind: behind({ by: 'all', grade }),
  }));
}

export function lostRows({ lost }: Totals): Row[] {
  return lost.map(({ currency, lost: amount, before }) => ({
    kind: 'lost',
    key: currency,
    label: `Lost, in ${currency}`,
    lost: amount,
    lostBefore: before,
    currency,
  }));
}

export function mendedRows(now: Mending, before: Mending): Row[] {
  return [
    { kind: 'mended', key: 'tried', label: 'Repairs tried', pieces: now.tried, piecesBefore: before.tried },
    {
      kind: 'mended',
      key: 'worked',
      label: 'Repairs that worked',
      pieces: now.worked,
      piecesBefore: before.worked,
    },
  ];
}

export function bestRows(glazes: readonly BestGlaze[], behind: Behind): Row[] {
  return glazes.map((glaze) => ({
    kind: 'best',
    key: glaze.label,
    id: glaze.key,
    label: glaze.label,
    pieces: glaze.pieces,
    firings: glaze.firings,
    seconds: glaze.affected,
    rate: glaze.rate,
    low: glaze.believable.low,
    high: glaze.believable.high,
    even: glaze.even,
    evenLow: glaze.evenLow,
    evenHigh: glaze.evenHigh,
    q: glaze.clusterQ,
    verdict: glaze.verdict,
    says: rateSaid(glaze),
    labelBehind: behind({ by: 'glaze', key: glaze.key }),
  }));
}

export function repairRows({ rows }: Mending): Row[] {
  return rows.map((row) => ({
    kind: 'repair',
    key: `${row.repair} ${row.fault}`,
    ...row,
    says: `${row.worked} of ${row.tried}; ${between(row)}`,
  }));
}

export const changeRow = ({ what, key, label, compared, finding, q, says }: Change): Row => ({
  kind: 'change',
  key: what === 'all' ? 'all' : `${what} ${key}`,
  what,
  label: what === 'fault' ? opened(key) : label,
  pieces: compared.now.pieces,
  firings: compared.now.firings,
  seconds: compared.now.affected,
  rate: compared.rate,
  piecesBefore: compared.before.pieces,
  firingsBefore: compared.before.firings,
  secondsBefore: compared.before.affected,
  rateBefore: compared.rateBefore,
  difference: compared.difference,
  low: compared.low,
  high: compared.high,
  p: compared.p,
  q,
  finding,
  beyondChance: finding === 'more' || finding === 'fewer',
  says,
});
