/** The pieces behind a number of the tally. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { piecesBehind } from '../../server/contract/reports/behind.ts';
import { period } from '../../server/contract/reports/period.ts';
import { escapeLike, marks } from '../../server/contract/reports/sql.ts';

const input = z.strictObject({
  ...period,
  by: z
    .enum(['all', 'glaze', 'clay', 'schedule', 'kiln', 'bisque-schedule', 'bisque-kiln', 'fault'])
    .default('all'),
  key: z.string().max(120).default(''),
  month: z
    .string()
    .regex(/^\d{4}-\d\d$/, 'a month like 2026-05')
    .optional(),
  grade: z.enum(['first', 'second', 'waster']).optional(),
  limit: z.coerce.number().int().min(1).max(5_000).default(500),
});

interface Found {
  piece: string;
  mark: string | null;
  form: string | null;
  count: number;
  grade: string;
  day: string;
  lost: number;
  currency: string;
  under: string;
}

/** How many of the row's pieces count under the key. */
function counts(row: Found, by: string, key: string): number {
  const start = `|${by}=${key}=`;
  const at = row.under.indexOf(start);
  return at < 0 ? 0 : Number.parseInt(row.under.slice(at + start.length), 10);
}

async function behind(ask: Ask, of: z.infer<typeof input>): Promise<Answered> {
  const from = of.month ? `${of.month}-01` : '';
  const to = of.month ? `${of.month}-31` : '9999';
  const found = await ask.query<Found>(
    `SELECT piece, mark, form, count, grade, day, lost, currency, under FROM graded
     WHERE day >= max(?, ?) AND day <= min(?, ?) AND owner IN (${marks(of.owners.length)})
       AND under LIKE ? ESCAPE '\\' ${of.grade ? 'AND grade = ?' : ''}
     ORDER BY day DESC, piece LIMIT ?`,
    [
      of.from ?? '',
      from,
      of.to ?? '9999',
      to,
      ...of.owners,
      `%|${escapeLike(of.by)}=${escapeLike(of.key)}=%`,
      ...(of.grade ? [of.grade] : []),
      of.limit + 1,
    ],
  );
  return piecesBehind(
    found.map(({ under, ...row }) => ({ ...row, count: counts({ under, ...row }, of.by, of.key) })),
    of,
  );
}

export const pieces = report({ title: 'The pieces behind a number', input, unlisted: true, run: behind });
