/** The pieces behind a number of the worst glaze. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { escapeLike, marks } from '../../server/contract/reports/sql.ts';
import { period } from './period.ts';

const input = z.strictObject({
  ...period,
  /** 'glaze=marram-green'; 'firing' for all firings; all pieces when left out. */
  cause: z.string().max(200).default(''),
  /** Ids of firings that are left out, with spaces. */
  without: z.string().max(20_000).default(''),
  /** Suspected: the spoiled pieces that it may have spoiled. */
  show: z.enum(['all', 'spoiled', 'suspected']).default('all'),
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
}

const SHOWN = {
  all: '',
  spoiled: 'AND suspects IS NOT NULL',
  suspected: "AND suspects LIKE ? ESCAPE '\\'",
} as const;

function asked({ cause, without, show, from, to, owners, limit }: z.infer<typeof input>) {
  const left = without.split(' ').filter((id) => id !== '');
  const like =
    cause === '' ? '%' : cause.includes('=') ? `% ${escapeLike(cause)} %` : `% ${escapeLike(cause)}=%`;
  return {
    sql: `SELECT piece, mark, form, sum(count) AS count, grade, day, sum(lost) AS lost, currency FROM first_firings
     WHERE grade <> '' AND day >= ? AND day <= ? AND owner IN (${marks(owners.length)})
       AND present LIKE ? ESCAPE '\\' ${SHOWN[show]} ${left.length > 0 ? `AND firing NOT IN (${marks(left.length)})` : ''}
     GROUP BY piece, mark, form, grade, day, currency ORDER BY day DESC, piece LIMIT ?`,
    params: [
      from ?? '',
      to ?? '9999',
      ...owners,
      like,
      ...(show === 'suspected' ? [like] : []),
      ...left,
      limit + 1,
    ],
  };
}

async function behind(ask: Ask, of: z.infer<typeof input>): Promise<Answered> {
  const { sql, params } = asked(of);
  const found = await ask.query<Found>(sql, params);
  const rows = found.slice(0, of.limit).map((row) => ({
    ...row,
    story: `/ware/${encodeURIComponent(row.piece)}`,
  }));
  const count = rows.reduce((sum, row) => sum + row.count, 0);
  const more = found.length > of.limit ? ', and more' : '';
  return {
    from: of.from ?? null,
    to: of.to ?? null,
    sentence:
      rows.length === 0
        ? 'No pieces behind this number.'
        : of.show === 'suspected'
          ? `${count} ${count === 1 ? 'second or waster' : 'seconds and wasters'} that may be its doing${more}. Each is shared among all that may have done it.`
          : `${count} ${count === 1 ? 'piece' : 'pieces'}${more}.`,
    rows,
    notes: ['The grade is that of the first glaze firing, before any mending.'],
    figures: [
      {
        figure: 'table',
        title: 'The pieces behind the number',
        columns: [
          { field: 'mark', label: 'Mark', kind: 'mark', behind: 'story' },
          { field: 'form', label: 'Form', kind: 'text', behind: 'story' },
          { field: 'count', label: 'Pieces', kind: 'count' },
          { field: 'grade', label: 'Grade', kind: 'code' },
          { field: 'day', label: 'Fired', kind: 'day' },
          { field: 'lost', label: 'Lost', kind: 'money', wide: true },
        ],
      },
    ],
  };
}

export const worstGlazePieces = report({
  title: 'The pieces behind a number of the worst glaze',
  input,
  unlisted: true,
  run: behind,
});
