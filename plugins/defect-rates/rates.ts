/** Rates by group: each row with its believable range, its evened-out rate and its test against the rest. */
import type { z } from 'zod';
import { type Answered, type Ask, type Report, report } from '../../server/contract/plugin.ts';
import { keeping } from '../../server/contract/reports/keeping.ts';
import { capital, listed, percent, plural } from '../../server/contract/reports/words.ts';
import { type Clustered, FEW_FIRINGS } from '../../server/contract/statistics/cluster.ts';
import { type Reckoned, reckon } from '../../server/contract/statistics/groups.ts';
import { type Asked, linkTo, outcomeName, rateInput, roleInput } from './asked.ts';
import { KINDS, type Kind, type KindName } from './kinds.ts';
import { namesOf, sums, type Whole, waitingFor, whole } from './sums.ts';
import { chanceSaid, saidOf } from './wording.ts';

/** Of many comparisons, one in twenty that is called different may be so by chance. */
export const FALSE_ALARMS = 0.05;

type Labelled = Reckoned & { readonly label: string };

function sentence(kind: Kind, of: Asked, all: Clustered, rows: readonly Labelled[]): string {
  if (all.pieces === 0) return 'No inspected pieces in this time.';
  const total = `${capital(outcomeName(of.outcome))}: ${all.affected} of ${plural(all.pieces, 'inspected piece')} (${percent(all.affected / all.pieces)} %)`;
  // In few firings nothing is called different: two unlucky ones may be all that was seen.
  const different = rows.filter(
    (row) => row.clusterQ !== null && row.clusterQ < FALSE_ALARMS && row.firings >= FEW_FIRINGS,
  );
  const worse = different.filter((row) => row.worse);
  const better = different.filter((row) => !row.worse);
  const said = (row: Labelled) => `${row.label} (${saidOf(row)})`;
  if (worse.length > 0)
    return `${total}. Worse than the rest, beyond chance: ${listed(worse.slice(0, 3).map(said))}.`;
  if (better.length > 0)
    return `${total}. Better than the rest, beyond chance: ${listed(better.slice(0, 3).map(said))}.`;
  return rows.length > 1
    ? `${total}. None of the ${kind.nouns} differs from the rest beyond chance.`
    : `${total}.`;
}

function notes(kind: Kind, of: Asked, all: Whole, rows: readonly Labelled[], waiting: number): string[] {
  const inRows = rows.reduce((sum, row) => sum + row.pieces, 0);
  const missing = all.pieces - inRows;
  const one = rows.filter((row) => row.firings === 1);
  return [
    waiting > 0 && `${plural(waiting, 'piece is', 'pieces are')} fired and not graded yet, and left out.`,
    all.mended > 0 &&
      `${plural(all.mended, 'piece was', 'pieces were')} found faulty and fired again before being graded: counted as seconds of the earlier firing.`,
    !kind.several &&
      missing > 0 &&
      `${plural(missing, 'inspected piece has', 'inspected pieces have')} ${kind.missing}, and ${missing === 1 ? 'is' : 'are'} left out of the rows.`,
    kind.several === true &&
      rows.length > 0 &&
      `A piece counts under each ${kind.noun} it had, so the rows can add up to more than the whole.`,
    one.length > 0 &&
      `${listed(one.map((row) => row.label))}: in one firing only, so what is its doing and what is the firing’s cannot be told apart.`,
    rows.length > 1 &&
      'The range that is believable takes pieces of one firing as alike (95 %); low and high take every piece as its own (Wilson).',
    rows.length > 1 &&
      rows.length < 4 &&
      `With ${rows.length === 2 ? 'two' : 'three'} rows there is little to even out with.`,
    rows.length > 1 &&
      'Evened out: a row with few pieces leans on the others (beta-binomial; prior (α + β)^(−5/2), averaged over).',
    rows.length > 1 &&
      'p: against all other inspected pieces, each as its own (Fisher); q: corrected for so many comparisons (Benjamini-Hochberg). The sentences use the pair that takes pieces of one firing as alike.',
    kind.bisque === true && 'Firings are bisque firings here.',
    of.firing === 'all' && 'Every inspected glaze firing of a piece counts.',
  ].filter((note) => note !== false);
}

const rate = (field: string, label: string, wide = false) =>
  ({ field, label, kind: 'rate', ...(wide ? { wide } : {}) }) as const;

function figures(kind: Kind, title: string): Answered['figures'] {
  return [
    {
      figure: 'ranking',
      title,
      label: 'label',
      estimate: { ...rate('rate', 'Rate'), behind: 'affectedBehind' },
      low: 'believableLow',
      high: 'believableHigh',
      pieces: 'pieces',
    },
    {
      figure: 'table',
      title,
      columns: [
        { field: 'label', label: capital(kind.noun), kind: 'text', behind: 'labelBehind' },
        { field: 'says', label: 'In words', kind: 'text', wide: true },
        { field: 'affected', label: 'Affected', kind: 'count', behind: 'affectedBehind' },
        { field: 'pieces', label: 'Pieces', kind: 'count', behind: 'piecesBehind' },
        { field: 'firings', label: 'Firings', kind: 'count' },
        rate('rate', 'Rate'),
        rate('believableLow', 'Believable from'),
        rate('believableHigh', 'to'),
        rate('even', 'Evened out'),
        rate('evenLow', 'from', true),
        rate('evenHigh', 'to', true),
        { field: 'pSaid', label: 'p', kind: 'text', wide: true },
        { field: 'qSaid', label: 'q', kind: 'text', wide: true },
        { field: 'clusterQSaid', label: 'q by firings', kind: 'text', wide: true },
      ],
    },
  ];
}

/** Where a row leads: from a glaze to whether it is the firing, from a kiln to its firings; from any other to its pieces. */
function furtherOf(by: KindName, key: string, of: Asked, pieces: string): string {
  if (by === 'glaze') return linkTo('glaze-within-schedule', of, { glaze: key, role: 'bisque' });
  return by === 'kiln' ? linkTo('chart', of, { kiln: key }) : pieces;
}

async function ratesBy(ask: Ask, by: KindName, of: Asked, title: string): Promise<Answered> {
  const kind: Kind = KINDS[by];
  const bisque = kind.bisque === true;
  const [all, groups, names, waiting] = await Promise.all([
    whole(ask, of, bisque),
    sums(ask, of, by, bisque),
    namesOf(ask),
    waitingFor(ask, of),
  ]);
  const rows: Labelled[] = reckon(all, groups)
    .map((row) => ({ ...row, label: kind.label(row.key, names) }))
    .toSorted((a, b) => b.even - a.even || a.label.localeCompare(b.label));
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence: sentence(kind, of, all, rows),
    rows: rows.map(({ believable, worse: _, key, ...row }) => {
      const piecesBehind = linkTo('pieces', of, { by, key });
      return {
        ...row,
        key: row.label,
        id: key,
        believableLow: believable.low,
        believableHigh: believable.high,
        says: saidOf({ ...row, believable }),
        pSaid: chanceSaid(row.p),
        qSaid: chanceSaid(row.q),
        clusterQSaid: chanceSaid(row.clusterQ),
        labelBehind: furtherOf(by, key, of, piecesBehind),
        piecesBehind,
        affectedBehind: linkTo('pieces', of, { by, key, affected: 'yes' }),
      };
    }),
    notes: notes(kind, of, all, rows, waiting),
    figures: figures(kind, title),
  };
}

const plain = (by: KindName, title: string): Report<Asked> =>
  report<Asked>({
    title,
    input: rateInput as unknown as z.ZodType<Asked>,
    run: keeping(by, (ask, of) => ratesBy(ask, by, of, title)),
  });

const byRole = (glaze: KindName, bisque: KindName, title: string): Report<Asked> =>
  report<Asked>({
    title,
    input: roleInput as unknown as z.ZodType<Asked>,
    run: keeping(glaze, (ask, of) => ratesBy(ask, of.role === 'bisque' ? bisque : glaze, of, title)),
  });

export const byGlaze = plain('glaze', 'Fault rates by glaze');
export const byClay = plain('clay', 'Fault rates by clay');
export const bySchedule = byRole('schedule', 'bisque-schedule', 'Fault rates by firing schedule');
export const byKiln = byRole('kiln', 'bisque-kiln', 'Fault rates by kiln');
export const byShelf = plain('shelf', 'Fault rates by shelf');
export const byCoats = plain('coats', 'Fault rates by number of coats');
export const byMethod = plain('method', 'Fault rates by way of glazing');
export const byLayers = plain('layers', 'Fault rates by layering of glazes');
export const glazeOnClay = plain('glaze-clay', 'Fault rates by glaze on each clay');
export const glazeOnSchedule = byRole(
  'glaze-schedule',
  'glaze-bisque-schedule',
  'Fault rates by glaze on each schedule',
);
