/** Firing by firing, for a kiln or a glaze: the rate of each with the limits of chance. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { keeping } from '../../server/contract/reports/keeping.ts';
import { firingNames } from '../../server/contract/reports/names.ts';
import { period } from '../../server/contract/reports/period.ts';
import { capital, dayText, listed, percent, plural } from '../../server/contract/reports/words.ts';
import { type GapLimits, gapsBetween, gChart } from '../../server/contract/statistics/g-chart.ts';
import { laneySpread } from '../../server/contract/statistics/laney.ts';
import { pChart } from '../../server/contract/statistics/p-chart.ts';
import { type Asked, linkTo, material, outcome, outcomeName } from './asked.ts';
import { firings, namesOf } from './sums.ts';

const input = z
  .strictObject({ ...period, ...outcome, kiln: material.optional(), glaze: material.optional() })
  .refine((of) => !(of.kiln && of.glaze), { message: 'a kiln or a glaze, not both', path: ['glaze'] });

/** Under so many firings limits say little. */
const ENOUGH = 10;
/** With fewer affected in a firing on average, one alone would be out: limits by firing mean nothing. */
const RARE = 0.5;
/** More firings than these are not named one by one, the latest are. */
const MOST_NAMED = 12;

type Input = z.infer<typeof input>;
interface Drawn {
  readonly id: string;
  readonly firing: string;
  readonly date: string;
  readonly pieces: number;
  readonly affected: number;
}

async function firingsOf(ask: Ask, of: Input): Promise<Drawn[]> {
  const by = of.kiln ? 'kiln' : of.glaze ? 'glaze' : 'all';
  const found = await firings(ask, of as Asked, { by, key: of.kiln ?? of.glaze ?? '' });
  const name = await firingNames(
    ask,
    found.map((it) => it.firing),
  );
  return found
    .map(({ firing, day, n, y }) => ({ id: firing, firing: name(firing), date: day, pieces: n, affected: y }))
    .toSorted((x, y) => (x.date === y.date ? (x.id < y.id ? -1 : 1) : x.date < y.date ? -1 : 1));
}

interface Gaps {
  /** Firings without, since the one before that had it; undefined for those that had none, and the first. */
  readonly each: readonly (number | undefined)[];
  readonly limits: GapLimits;
  /** Since the last one that had it. */
  readonly since: number;
}

/** Undefined where more than every other firing has it: there is nothing to count between. */
function gapsOf(drawn: readonly Drawn[]): Gaps | undefined {
  const happened = drawn.map((firing) => firing.affected > 0);
  const limits = gChart(gapsBetween(happened));
  if (!limits || limits.centre < 1) return undefined;
  let last = -1;
  const each = happened.map((yes, n) => {
    if (!yes) return undefined;
    const gap = last < 0 ? undefined : n - last - 1;
    last = n;
    return gap;
  });
  return { each, limits, since: happened.length - 1 - last };
}

function gapSaid({ limits, since }: Gaps, what: string): string {
  const beyond = since > limits.high ? ': longer than chance explains' : '';
  return `Firings without ${what} between two with: ${limits.centre.toFixed(1)} on average, up to ${Math.floor(limits.high)} by chance; ${since} since the last${beyond} (geometric limits).`;
}

const isOut = (gap: number | undefined, { low, high }: GapLimits): boolean =>
  gap !== undefined && (gap < low || gap > high);

function rowsOf(drawn: readonly Drawn[], of: Input, rare: boolean, spread: number, gaps: Gaps | undefined) {
  const limits = pChart(drawn);
  const wide = pChart(drawn, { spread: Math.max(1, spread) });
  const by: Record<string, string> = of.kiln
    ? { by: 'kiln', key: of.kiln }
    : of.glaze
      ? { by: 'glaze', key: of.glaze }
      : {};
  // A link for each firing would be made anew otherwise, of which there may be thousands.
  const [pieces, affected] = ['all', 'yes'].map((which) =>
    linkTo('pieces', of as Asked, { ...by, affected: which }, ['firing']),
  ) as [string, string];
  return drawn.map((firing, n) => {
    const gap = gaps?.each[n];
    const id = encodeURIComponent(firing.id);
    return {
      ...firing,
      kind: gap === undefined ? 'firing' : 'gap',
      label: `${firing.firing}, ${firing.date}`,
      rate: firing.affected / firing.pieces,
      centre: limits[n]!.centre,
      lower: limits[n]!.low,
      upper: limits[n]!.high,
      out: limits[n]!.out,
      wideLower: wide[n]!.low,
      wideUpper: wide[n]!.high,
      wideOut: !rare && wide[n]!.out,
      ...(gap === undefined || !gaps
        ? {}
        : {
            gap,
            gapCentre: gaps.limits.centre,
            gapLower: gaps.limits.low,
            gapUpper: gaps.limits.high,
            gapOut: isOut(gap, gaps.limits),
          }),
      story: `/kilns/${id}`,
      piecesBehind: `${pieces}&firing=${id}`,
      affectedBehind: `${affected}&firing=${id}`,
      rateBehind: `${affected}&firing=${id}`,
    };
  });
}

type FiringRow = ReturnType<typeof rowsOf>[number];

const named = (some: readonly FiringRow[]): string =>
  listed(some.map((row) => `${row.firing}, ${dayText(row.date)} (${row.affected} of ${row.pieces})`));

function judged(rows: readonly FiringRow[], rare: boolean): string {
  if (rare) return 'Too few for limits firing by firing.';
  const outside = rows.filter((row) => row.wideOut);
  if (outside.length === 0) return 'No firing lies outside the limits of chance.';
  const [some, more] = [outside.slice(-MOST_NAMED), outside.length - MOST_NAMED];
  return `Outside the limits of chance: ${named(some)}${more > 0 ? `, and ${more} before them` : ''}.`;
}

async function run(ask: Ask, of: Input): Promise<Answered> {
  const [drawn, names] = await Promise.all([firingsOf(ask, of), namesOf(ask)]);
  const spread = laneySpread(drawn);
  const rare = drawn.reduce((sum, { affected }) => sum + affected, 0) < RARE * drawn.length;
  const gaps = gapsOf(drawn);
  const rows = rowsOf(drawn, of, rare, spread, gaps);
  const what = outcomeName(of.outcome);
  const subject = of.kiln ? names.kiln_names(of.kiln) : of.glaze ? names.glaze_names(of.glaze) : 'All kilns';
  const plainOut = rare ? [] : rows.filter((row) => row.out && !row.wideOut);
  const longest = gaps ? rows.filter((row) => row.gapOut) : [];
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence:
      rows.length === 0
        ? 'No inspected pieces in this time.'
        : `${subject}: ${what} in ${percent(rows[0]!.centre)} % of the pieces of ${plural(rows.length, 'firing')}. ${judged(rows, rare)}`,
    rows,
    notes: [
      rows.length > 0 &&
        'Limits: three standard deviations for the number of pieces in each firing (p-chart).',
      spread > 1 &&
        `Firings vary ${spread.toFixed(1)} times as much as pieces taken singly would; the wider limits allow for that (Laney), and the sentence uses them.`,
      plainOut.length > 0 && `Outside the narrow limits only: ${named(plainOut.slice(-MOST_NAMED))}.`,
      rows.length > 0 && rows.length < ENOUGH && `With ${plural(rows.length, 'firing')} limits say little.`,
      gaps && gapSaid(gaps, what),
      longest.length > 0 &&
        `Longer without than chance explains, before ${listed(longest.map((row) => `${row.firing} (${row.gap} firings)`))}.`,
    ].filter((note) => typeof note === 'string'),
    figures: figuresOf(what, gaps !== undefined, rare),
  };
}

/** Where it is rare, what lies between comes first: limits firing by firing say nothing then. */
function figuresOf(what: string, gaps: boolean, rare: boolean): Answered['figures'] {
  const between: Answered['figures'] = gaps
    ? [
        {
          figure: 'series',
          title: `Firings without ${what} between two with`,
          only: 'gap',
          x: { field: 'date', label: 'Firing', kind: 'day', behind: 'story' },
          lines: [{ field: 'gap', label: 'Firings without', kind: 'number' }],
          lower: 'gapLower',
          upper: 'gapUpper',
          centre: 'gapCentre',
          out: 'gapOut',
        },
      ]
    : [];
  return [...(rare ? [...between, RATES(what)] : [RATES(what), ...between]), TABLE];
}

const RATES = (what: string): Answered['figures'][number] => ({
  figure: 'series',
  title: `${capital(what)}, firing by firing`,
  x: { field: 'date', label: 'Firing', kind: 'day', behind: 'story' },
  lines: [{ field: 'rate', label: 'Rate', kind: 'rate' }],
  lower: 'wideLower',
  upper: 'wideUpper',
  centre: 'centre',
  out: 'wideOut',
});

const TABLE: Answered['figures'][number] = {
  figure: 'table',
  title: 'Firing by firing in numbers',
  columns: [
    { field: 'firing', label: 'Firing', kind: 'text', behind: 'story' },
    { field: 'date', label: 'Fired', kind: 'day' },
    { field: 'affected', label: 'Affected', kind: 'count', behind: 'affectedBehind' },
    { field: 'pieces', label: 'Pieces', kind: 'count', behind: 'piecesBehind' },
    { field: 'rate', label: 'Rate', kind: 'rate' },
    { field: 'lower', label: 'Limit from', kind: 'rate', wide: true },
    { field: 'upper', label: 'to', kind: 'rate', wide: true },
    { field: 'wideLower', label: 'Wider limit from', kind: 'rate', wide: true },
    { field: 'wideUpper', label: 'to', kind: 'rate', wide: true },
  ],
};

export const chart = report({ title: 'Firing by firing, with limits', input, run: keeping('chart', run) });
