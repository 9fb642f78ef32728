/** The year on a page: what came out, what it cost, which glazes, what changed, what to change. */

import type { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { marks } from '../../../server/contract/reports/sql.ts';
import { dayText, percent, plural } from '../../../server/contract/reports/words.ts';
import { type Year, yearName } from '../../../server/contract/year.ts';
import type { Asked } from '../period.ts';
import { share, spoiled } from '../sums.ts';
import { worstGlaze } from '../worst-glaze.ts';
import { advice, type Blamed } from './advice.ts';
import { bestGlazes, bestSaid } from './best-glazes.ts';
import { type Change, changes, type NameOf } from './changes.ts';
import type { Finding } from './compared.ts';
import { FIGURES } from './figures.ts';
import { yearInput } from './input.ts';
import { mending, mendingSaid } from './mending.ts';
import { behindIn, bestRows, changeRow, gradeRows, lostRows, mendedRows, repairRows } from './rows.ts';
import { type YearSpan, yearSpan, yearsSince } from './span.ts';
import { type Totals, totals } from './totals.ts';
import { daysText } from './wording.ts';

type Input = z.infer<typeof yearInput>;

/** Names of glazes, clays and schedules; an id stands for itself where none is known. */
async function names(ask: Ask): Promise<NameOf> {
  const found = await ask.query<{ key: string; name: string }>(
    `SELECT 'glaze ' || id AS key, name FROM glaze_names
     UNION ALL SELECT 'clay ' || id, name FROM clay_names
     UNION ALL SELECT 'schedule ' || id, name FROM schedule_names`,
  );
  const known = new Map(found.map(({ key, name }) => [key, name]));
  return (kind, id) => known.get(`${kind} ${id}`) ?? id;
}

/** The first day on which anything that was graded came out of a firing. */
async function firstDay(ask: Ask): Promise<string | undefined> {
  const [found] = await ask.query<{ day: string | null }>(
    "SELECT min(day) AS day FROM fired WHERE by = 'out'",
  );
  return found?.day ?? undefined;
}

interface Counts {
  /** Out of a first glaze firing, and of those the seconds and wasters, and the ones without a fault noted. */
  readonly out: number;
  readonly spoiled: number;
  readonly unnoted: number;
  /** Fired and not graded yet. */
  readonly waiting: number;
}

async function counts(ask: Ask, { from, until }: YearSpan, owners: readonly string[]): Promise<Counts> {
  const span = [from, until, ...owners];
  const within = `day >= ? AND day <= ? AND owner IN (${marks(owners.length)})`;
  const out = (sum: string, by: string) => `(SELECT sum(${sum}) FROM fired WHERE by = '${by}' AND ${within})`;
  const [found] = await ask.query<{ [K in keyof Counts]: number | null }>(
    `SELECT ${out('pieces', 'out')} AS out, ${out('spoiled', 'out')} AS spoiled, ${out('pieces', 'unnoted')} AS unnoted,
       (SELECT sum(pieces) FROM waiting WHERE ${within}) AS waiting`,
    [...span, ...span, ...span, ...span],
  );
  return {
    out: found?.out ?? 0,
    spoiled: found?.spoiled ?? 0,
    unnoted: found?.unnoted ?? 0,
    waiting: found?.waiting ?? 0,
  };
}

/** Faults of a glaze's seconds and wasters, the commonest first. */
const faultsOf = (ask: Ask, { from, until }: YearSpan, owners: readonly string[], glaze: string) =>
  ask.query<{ fault: string; pieces: number }>(
    `SELECT substr(key, ?) AS fault, sum(spoiled) AS pieces FROM fired
     WHERE by = 'glaze-fault' AND day >= ? AND day <= ? AND owner IN (${marks(owners.length)})
       AND key >= ? AND key < ? GROUP BY key HAVING sum(spoiled) > 0 ORDER BY pieces DESC, fault`,
    [glaze.length + 2, from, until, ...owners, `${glaze}|`, `${glaze}|\u{10ffff}`],
  );

/** Which year, and how much of it. */
function titleOf({ name, from, to, until, over }: YearSpan): string {
  const title = name || daysText({ from, to });
  return over || until === to ? title : `${title} so far, until ${dayText(until)}`;
}

const FINDINGS: Readonly<Record<Finding, string>> = {
  more: 'more, beyond chance',
  fewer: 'fewer, beyond chance',
  chance: 'which can’t be told apart from chance',
  'one-of-many': 'which can’t be told apart from chance',
  few: 'which few firings can’t tell apart from chance',
};

function beforeSaid(all: Change | undefined): string {
  if (!all) return 'Nothing is on record for the year before.';
  const { rate, rateBefore } = all.compared;
  return `Before any mending it was ${percent(rate)} %, against ${percent(rateBefore)} % in the same days of the year before: ${FINDINGS[all.finding]}.`;
}

function headline(span: YearSpan, { now }: Totals): string {
  if (now.pieces === 0) return `${titleOf(span)}: no graded pieces.`;
  const rate = percent(spoiled(now) / now.pieces);
  return `${titleOf(span)}: ${plural(now.firsts, 'first')}, ${plural(now.seconds, 'second')} and ${plural(now.wasters, 'waster')} of ${plural(now.pieces, 'graded piece')} (${rate} % seconds and wasters).`;
}

function notes(span: YearSpan, { now }: Totals, { waiting }: Counts): string[] {
  return [
    `Beside it stands ${daysText(span.before)}.`,
    'Firsts, seconds, wasters and money go by the latest grade of each piece. Glazes, and what changed, go by how the ware came out of its first glaze firing, before any mending: the year before has had longer to be mended.',
    'Differences from the year before take pieces of one firing as alike (95 %); of many at once those are called beyond chance that stay so when corrected for their number (Benjamini-Hochberg).',
    ...(waiting > 0
      ? [`${plural(waiting, 'piece is', 'pieces are')} fired and not graded yet, and left out.`]
      : []),
    ...(now.unpriced > 0
      ? [
          `${plural(now.unpriced, 'second or waster has', 'seconds or wasters have')} no price noted: what was lost is at least this much.`,
        ]
      : []),
  ];
}

const told = (days: Year) => ({ ...days, name: yearName(days) });

async function run(ask: Ask, of: Input): Promise<Answered> {
  const span = yearSpan(of, ask.today, ask.settings.yearStart);
  const days = { from: span.from, to: span.until };
  const { owners } = of;
  const [name, sums, now, before, worst, counted, first] = await Promise.all([
    names(ask),
    totals(ask, span, owners),
    mending(ask, days, owners),
    mending(ask, span.before, owners),
    worstGlaze.run(ask, { ...days, owners } as Asked),
    counts(ask, span, owners),
    firstDay(ask),
  ]);
  const [best, { all, each }] = await Promise.all([
    bestGlazes(ask, span, owners, name),
    changes(ask, span, owners, name),
  ]);
  const blamed = worst.rows as unknown as Blamed[];
  const ids = blamed.find(({ kind }) => kind === 'glaze')?.ids ?? [];
  const own = ids.find((id) => id.startsWith('glaze='))?.slice('glaze='.length);
  const itsFaults = own ? await faultsOf(ask, span, owners, own) : [];
  const advised = advice({
    pieces: counted.out,
    spoiled: counted.spoiled,
    unnoted: counted.unnoted,
    blamed,
    itsFaults,
    changes: each,
    mending: now,
  });
  const behind = behindIn(span, owners);
  const said = headline(span, sums);
  const compared = beforeSaid(all);
  return {
    from: span.from,
    to: span.to,
    sentence: sums.now.pieces === 0 ? said : `${said} ${compared} ${worst.sentence}`,
    rows: [
      ...gradeRows(sums, behind),
      ...lostRows(sums),
      ...mendedRows(now, before),
      ...worst.rows.filter((row) => row.kind === 'glaze').map((row) => ({ ...row, kind: 'worst' })),
      ...bestRows(best, behind),
      ...repairRows(now),
      ...[...(all ? [all] : []), ...each].map(changeRow),
      ...advised.map((says, n) => ({ kind: 'advice', key: String(n + 1), label: says, says })),
    ],
    notes: notes(span, sums, counted),
    figures: sums.now.pieces === 0 ? [] : FIGURES,
    more: {
      year: { name: span.name, from: span.from, to: span.to, until: span.until, over: span.over },
      before: span.before,
      years: yearsSince(first, ask.today, ask.settings.yearStart).map(told),
      headline: said,
      worst: worst.sentence,
      best: bestSaid(best),
      mended: mendingSaid(now),
      compared,
      changed: all?.says ?? null,
      advice: advised,
      pieces: sums.now.pieces,
      rate: share(spoiled(sums.now), sums.now.pieces),
      rateBefore: share(spoiled(sums.before), sums.before.pieces),
    },
  };
}

/** Kept until a table changes or the day does: a year that is not over ends today. */
const kept = (ask: Ask, of: Input): Promise<Answered> =>
  ask.kept(JSON.stringify(['year', of, ask.settings, ask.today]), () => run(ask, of));

export const year = report({ title: 'The year on a page', input: yearInput, run: kept });
