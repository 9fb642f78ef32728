/**
 * The fault guide: what a fault is, what this studio's own record suspects first, what the books
 * suspect, what to try, how that has gone here, and what can hurt.
 */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { keeping } from '../../../server/contract/reports/keeping.ts';
import { period } from '../../../server/contract/reports/period.ts';
import { capital, listed, opened, percent, plural } from '../../../server/contract/reports/words.ts';
import type { Clustered } from '../../../server/contract/statistics/cluster.ts';
import { word } from '../../../server/contract/studio/values.ts';
import { BOOKS, textbookOf } from '../../../server/contract/textbook.ts';
import { type Asked, linkTo } from '../asked.ts';
import { repairs } from '../repairs.ts';
import { namesOf, whole } from '../sums.ts';
import { faultsOnRecord } from './all-faults.ts';
import { GUIDE } from './figures.ts';
import { isOfBody } from './looked-at.ts';
import { mostInOneFiring, type OneFiring } from './one-firing.ts';
import { type Suspect, suspects } from './suspects.ts';

const input = z.strictObject({
  ...period,
  firing: z.enum(['first', 'all']).default('all'),
  /** Without one: all faults, and how often each was found. */
  fault: word.optional(),
});
type Input = z.infer<typeof input>;

/** Fewer pieces than this suspect nothing. */
const FEW = 5;

/** With glazes, clay and schedules allowed for, or without: then what goes together cannot be told apart. */
function suspicion(found: readonly Suspect[]): string {
  const sure = found.filter(({ finding }) => finding === 'holds');
  const said = ({ label, what, says }: Suspect) => `${label} (${what}; ${says})`;
  if (sure.length > 0) return `This studio’s record suspects first: ${listed(sure.slice(0, 2).map(said))}.`;
  const loose = found.filter(({ finding }) => finding === 'inseparable' || finding === 'beyond-chance');
  const [only] = loose;
  if (!only) return 'Nothing on record goes with it beyond chance.';
  if (loose.length === 1)
    return `It goes with ${said(only)}, and the record cannot tell whether that is what does it.`;
  const all = listed(loose.slice(0, 4).map(({ label, what }) => `${label} (${what})`));
  return `It goes beyond chance with ${all}, and the record cannot tell which of them does it.`;
}

function recordSaid(
  label: string,
  { affected, pieces }: Clustered,
  found: readonly Suspect[],
  one: OneFiring | undefined,
): string {
  if (affected === 0)
    return `${label}: not found on any of ${plural(pieces, 'inspected piece')}; only the books can say.`;
  const seen = `${label}: on ${affected} of ${plural(pieces, 'inspected piece')} (${percent(affected / pieces)} %).`;
  const firing = one
    ? ` ${one.affected} of them came out of one firing, ${one.label}: look there first.`
    : '';
  const suspected = affected < FEW ? 'Too few to suspect anything by the record.' : suspicion(found);
  return `${seen} ${suspected}${firing}`;
}

/** From a suspect to where it can be looked into. */
function furtherOf({ by, key }: Suspect, of: Asked): string {
  if (by === 'glaze') return linkTo('glaze-within-schedule', of, { glaze: key, role: 'bisque' });
  if (by === 'kiln') return linkTo('chart', of, { kiln: key });
  if (by === 'bisque-schedule') return linkTo('by-schedule', of, { role: 'bisque' });
  return linkTo(`by-${by}`, of, {});
}

const suspectRow = (row: Suspect, of: Asked) => ({
  kind: 'suspect',
  key: row.label,
  id: row.key,
  by: row.by,
  what: row.what,
  label: row.label,
  pieces: row.pieces,
  firings: row.firings,
  affected: row.affected,
  rate: row.rate,
  low: row.believable.low,
  high: row.believable.high,
  even: row.even,
  evenLow: row.evenLow,
  evenHigh: row.evenHigh,
  q: row.familyQ,
  finding: row.finding,
  verdict: row.verdict,
  says: row.says,
  labelBehind: furtherOf(row, of),
});

function bookRows(fault: string) {
  const { suspects: from, tries, cautions } = textbookOf(fault);
  const lines = (kind: string, all: readonly { text: string; practice?: true }[]) =>
    all.map(({ text, practice }, n) => ({
      kind,
      key: String(n + 1),
      label: text,
      practice: practice === true,
      source: practice ? 'common practice' : 'the books',
    }));
  return [
    ...lines('book', from),
    ...lines('try', tries),
    ...cautions.map((label, n) => ({ kind: 'caution', key: String(n + 1), label })),
  ];
}

function notes(fault: string, found: readonly Suspect[]): string[] {
  return [
    'What the record suspects is what the fault goes with: pieces of one firing are taken as alike, and of many comparisons those count that stay beyond chance when corrected for their number (Benjamini-Hochberg).',
    ...(isOfBody(fault)
      ? [
          'Only what was seen after a glaze firing is counted here; what was lost in drying or in the bisque is not.',
        ]
      : []),
    ...(found.some(({ finding }) => finding === 'few')
      ? ['Under five firings nothing is suspected, however bad it looks.']
      : []),
    `The books: ${BOOKS.join('; ')}. Told in other words and from memory, without pages; a line marked as common practice has no source.`,
  ];
}

async function guideTo(ask: Ask, asked: Input, fault: string): Promise<Answered> {
  const of: Asked = { ...asked, outcome: fault };
  const [all, names, mended, one] = await Promise.all([
    whole(ask, of, false),
    namesOf(ask),
    repairs.run(ask, { from: asked.from, to: asked.to, owners: asked.owners }),
    mostInOneFiring(ask, of),
  ]);
  const found = all.affected === 0 ? [] : await suspects(ask, of, all, names);
  const { seen } = textbookOf(fault);
  const label = capital(opened(fault));
  const record = recordSaid(label, all, found, one);
  const tried = mended.rows.filter((row) => row.fault === fault);
  return {
    from: asked.from ?? null,
    to: asked.to ?? null,
    sentence: record,
    rows: [
      ...found.map((row) => suspectRow(row, of)),
      ...bookRows(fault),
      ...tried.map((row) => ({ ...row, kind: 'repair', key: String(row.label) })),
    ],
    notes: notes(fault, found),
    figures: GUIDE,
    more: {
      fault,
      seen,
      record,
      pieces: all.pieces,
      affected: all.affected,
      firing: one ? { ...one, address: `/kilns/${encodeURIComponent(one.firing)}` } : null,
      books: BOOKS,
    },
  };
}

const run = (ask: Ask, of: Input): Promise<Answered> =>
  of.fault === undefined ? faultsOnRecord(ask, of) : guideTo(ask, of, of.fault);

export const faultGuide = report({ title: 'Fault guide', input, run: keeping('fault-guide', run) });
