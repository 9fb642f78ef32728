/** Firing by firing, for a kiln or a glaze: the rate of each with the limits of chance. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { keeping } from '../../server/contract/reports/keeping.ts';
import { gapsBetween, gChart } from '../../server/contract/statistics/g-chart.ts';
import { laneySpread } from '../../server/contract/statistics/laney.ts';
import { pChart } from '../../server/contract/statistics/p-chart.ts';
import { type Asked, material, outcome, outcomeName, period } from './asked.ts';
import { byFiring, namesOf } from './sums.ts';
import { capital, listed, percent, plural } from './wording.ts';

const input = z
  .strictObject({ ...period, ...outcome, kiln: material.optional(), glaze: material.optional() })
  .refine((of) => !(of.kiln && of.glaze), { message: 'a kiln or a glaze, not both', path: ['glaze'] });

/** Under so many firings limits say little. */
const ENOUGH = 10;
/** With fewer affected in a firing on average, one alone would be out: limits by firing mean nothing. */
const RARE = 0.5;

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
  const { sql, params } = byFiring(of as Asked, by, { key: of.kiln ?? of.glaze ?? '' });
  return ask.query<Drawn>(
    `SELECT h.firing AS id, coalesce(f.name, h.firing) AS firing, h.day AS date, h.n AS pieces, h.y AS affected
     FROM (${sql}) h LEFT JOIN firing_names f ON f.id = h.firing ORDER BY h.day, h.firing`,
    params,
  );
}

function gaps(drawn: readonly Drawn[], name: string): string | undefined {
  const happened = drawn.map((firing) => firing.affected > 0);
  const limits = gChart(gapsBetween(happened));
  if (!limits || limits.centre < 1) return undefined;
  const since = happened.length - 1 - happened.lastIndexOf(true);
  const beyond = since > limits.high ? ': longer than chance explains' : '';
  return `Firings without ${name} between two with: ${limits.centre.toFixed(1)} on average, up to ${Math.floor(limits.high)} by chance; ${since} since the last${beyond} (geometric limits).`;
}

async function run(ask: Ask, of: Input): Promise<Answered> {
  const [drawn, names] = await Promise.all([firingsOf(ask, of), namesOf(ask)]);
  const limits = pChart(drawn);
  const spread = laneySpread(drawn);
  const rare = drawn.reduce((sum, { affected }) => sum + affected, 0) < RARE * drawn.length;
  const wide = pChart(drawn, { spread: Math.max(1, spread) });
  const rows = drawn.map((firing, n) => ({
    ...firing,
    label: `${firing.firing}, ${firing.date}`,
    rate: firing.affected / firing.pieces,
    centre: limits[n]!.centre,
    lower: limits[n]!.low,
    upper: limits[n]!.high,
    out: limits[n]!.out,
    wideLower: wide[n]!.low,
    wideUpper: wide[n]!.high,
    wideOut: !rare && wide[n]!.out,
    story: `/kilns/${encodeURIComponent(firing.id)}`,
    rateBehind: `/kilns/${encodeURIComponent(firing.id)}`,
  }));
  const what = outcomeName(of.outcome);
  const subject = of.kiln ? names.kiln_names(of.kiln) : of.glaze ? names.glaze_names(of.glaze) : 'All kilns';
  const outside = rows.filter((row) => row.wideOut);
  const plainOut = rare ? [] : rows.filter((row) => row.out && !row.wideOut);
  const named = (some: typeof rows) =>
    listed(some.map((row) => `${row.label} (${row.affected} of ${row.pieces})`));
  const gap = gaps(drawn, what);
  const judged = rare
    ? 'Too few for limits firing by firing.'
    : outside.length === 0
      ? 'No firing lies outside the limits of chance.'
      : `Outside the limits of chance: ${named(outside)}.`;
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence:
      rows.length === 0
        ? 'No inspected pieces in this time.'
        : `${subject}: ${what} in ${percent(limits[0]!.centre)} % of the pieces of ${plural(rows.length, 'firing')}. ${judged}`,
    rows,
    notes: [
      rows.length > 0 &&
        'Limits: three standard deviations for the number of pieces in each firing (p-chart).',
      spread > 1 &&
        `Firings vary ${spread.toFixed(1)} times as much as pieces taken singly would; the wider limits allow for that (Laney), and the sentence uses them.`,
      plainOut.length > 0 && `Outside the narrow limits only: ${named(plainOut)}.`,
      rows.length > 0 && rows.length < ENOUGH && `With ${plural(rows.length, 'firing')} limits say little.`,
      gap,
    ].filter((note) => typeof note === 'string'),
    figures: [
      {
        figure: 'series',
        title: `${capital(what)}, firing by firing`,
        x: { field: 'date', label: 'Firing', kind: 'day', behind: 'story' },
        lines: [{ field: 'rate', label: 'Rate', kind: 'rate' }],
        lower: 'wideLower',
        upper: 'wideUpper',
        centre: 'centre',
        out: 'wideOut',
      },
      {
        figure: 'table',
        title: `${capital(what)}, firing by firing`,
        columns: [
          { field: 'firing', label: 'Firing', kind: 'text', behind: 'story' },
          { field: 'date', label: 'Fired', kind: 'day' },
          { field: 'affected', label: 'Affected', kind: 'count' },
          { field: 'pieces', label: 'Pieces', kind: 'count' },
          { field: 'rate', label: 'Rate', kind: 'rate' },
          { field: 'lower', label: 'Limit from', kind: 'rate', wide: true },
          { field: 'upper', label: 'to', kind: 'rate', wide: true },
          { field: 'wideLower', label: 'Wider limit from', kind: 'rate', wide: true },
          { field: 'wideUpper', label: 'to', kind: 'rate', wide: true },
        ],
      },
    ],
  };
}

export const chart = report({ title: 'Firing by firing, with limits', input, run: keeping('chart', run) });
