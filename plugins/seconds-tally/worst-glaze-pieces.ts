/** The pieces behind a number of the worst glaze. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../server/contract/plugin.ts';
import { type Behind, piecesBehind } from '../../server/contract/reports/behind.ts';
import { period } from '../../server/contract/reports/period.ts';
import { escapeLike, marks } from '../../server/contract/reports/sql.ts';
import { plural } from '../../server/contract/reports/words.ts';

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
  const found = await ask.query<Behind>(sql, params);
  return piecesBehind(found, {
    ...of,
    notes: ['The grade is that of the first glaze firing, before any mending.'],
    ...(of.show === 'suspected'
      ? {
          said: (pieces, more) =>
            `${plural(pieces, 'second or waster', 'seconds and wasters')} that may be its doing${more}. Each is shared among all that may have done it.`,
        }
      : {}),
  });
}

export const worstGlazePieces = report({
  title: 'The pieces behind a number of the worst glaze',
  input,
  unlisted: true,
  run: behind,
});
