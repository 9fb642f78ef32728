/** How often each repair worked, by the fault it was for. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { keeping } from '../../server/contract/reports/keeping.ts';
import { period } from '../../server/contract/reports/period.ts';
import { marks } from '../../server/contract/reports/sql.ts';
import { between, capital, opened, percent, plural } from '../../server/contract/reports/words.ts';
import { evenedOut } from '../../server/contract/statistics/evened-out.ts';
import { wilson } from '../../server/contract/statistics/wilson.ts';
import { FAULT_NOT_NOTED } from '../../server/contract/studio/mended.ts';

const input = z.strictObject(period);

interface Found {
  readonly fault: string;
  readonly repair: string;
  readonly tried: number;
  readonly worked: number;
  readonly waiting: number;
}

const faultName = (id: string): string => (id === FAULT_NOT_NOTED ? 'fault not noted' : opened(id));

function behind(of: z.infer<typeof input>, fault: string, repair: string, worked = 'all'): string {
  const query = new URLSearchParams({
    ...{ fault, repair, worked },
    owners: of.owners.join(','),
    ...(of.from ? { from: of.from } : {}),
    ...(of.to ? { to: of.to } : {}),
  });
  return `/review/defect-rates/repair-pieces?${query}`;
}

async function run(ask: Ask, of: z.infer<typeof input>): Promise<Answered> {
  const found = await ask.query<Found>(
    `SELECT fault, repair, sum(tried) AS tried, sum(worked) AS worked, sum(waiting) AS waiting FROM mended
     WHERE day >= ? AND day <= ? AND owner IN (${marks(of.owners.length)})
     GROUP BY fault, repair ORDER BY fault, repair`,
    [of.from ?? '', of.to ?? '9999', ...of.owners],
  );
  const judged = found.filter((row) => row.tried > 0);
  const even = evenedOut(judged.map(({ worked, tried }) => ({ affected: worked, pieces: tried })));
  const rows = judged
    .map(({ fault, repair, tried, worked }, n) => {
      const range = wilson({ affected: worked, pieces: tried });
      const { mean, low: evenLow, high: evenHigh } = even[n]!;
      const label = `${capital(opened(repair))} for ${faultName(fault)}`;
      const says = `${worked} of ${tried}; ${between(range)}`;
      return {
        fault,
        repair,
        label,
        tried,
        worked,
        rate: worked / tried,
        ...range,
        even: mean,
        evenLow,
        evenHigh,
        says,
        triedBehind: behind(of, fault, repair),
        workedBehind: behind(of, fault, repair, 'yes'),
      };
    })
    .toSorted((a, b) => b.even - a.even || a.label.localeCompare(b.label));
  const total = (field: 'tried' | 'worked' | 'waiting') => found.reduce((sum, row) => sum + row[field], 0);
  const best = rows[0];
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence: !best
      ? 'No repair has been judged by a grade in this time.'
      : `${total('worked')} of ${plural(total('tried'), 'repair')} worked (${percent(total('worked') / total('tried'))} %).${rows.length > 1 ? ` Evened out, the best is: ${best.label.toLowerCase()} (${best.says}).` : ''}`,
    rows,
    notes: [
      total('waiting') > 0 &&
        `${plural(total('waiting'), 'mended piece is', 'mended pieces are')} not graded since, and left out.`,
      rows.length > 0 &&
        'A repair worked where the piece was graded first afterwards, or better than before; a piece mended in two ways counts under both.',
      rows.length > 0 && 'Every piece is taken as its own here, also where several were mended together.',
      rows.length > 1 &&
        rows.length < 4 &&
        `With ${rows.length === 2 ? 'two' : 'three'} rows there is little to even out with.`,
    ].filter((note) => note !== false),
    figures: [
      {
        figure: 'ranking',
        title: 'Repairs that worked',
        label: 'label',
        estimate: { field: 'even', label: 'Worked, evened out', kind: 'rate', behind: 'triedBehind' },
        low: 'evenLow',
        high: 'evenHigh',
        pieces: 'tried',
      },
      {
        figure: 'table',
        title: 'Repairs in numbers',
        columns: [
          { field: 'label', label: 'Repair', kind: 'text' },
          { field: 'tried', label: 'Tried', kind: 'count', behind: 'triedBehind' },
          { field: 'worked', label: 'Worked', kind: 'count', behind: 'workedBehind' },
          { field: 'rate', label: 'Rate', kind: 'rate' },
          { field: 'low', label: 'Believable from', kind: 'rate' },
          { field: 'high', label: 'to', kind: 'rate' },
          { field: 'even', label: 'Evened out', kind: 'rate' },
          { field: 'evenLow', label: 'from', kind: 'rate', wide: true },
          { field: 'evenHigh', label: 'to', kind: 'rate', wide: true },
        ],
      },
    ],
  };
}

export const repairs = report({ title: 'Repairs that worked', input, run: keeping('repairs', run) });
