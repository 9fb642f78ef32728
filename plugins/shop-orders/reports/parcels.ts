/** Parcels, the newest first. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';

const paging = {
  /** `next` of the page before. */
  after: z.coerce.number().int().min(1).optional(),
  limit: z.coerce.number().int().min(1).max(500).default(50),
};

/** Pages of rows, the newest first. */
async function page<R extends { changedSeq: number }>(
  ask: Ask,
  from: string,
  where: readonly (readonly [sql: string, param: string] | false | '' | undefined)[],
  { after, limit }: { after?: number | undefined; limit: number },
): Promise<{ rows: R[]; next: number | undefined }> {
  const conditions = where.filter((it): it is readonly [string, string] => Boolean(it));
  const params: (string | number)[] = conditions.map(([, param]) => param);
  const sql = conditions.map(([condition]) => condition);
  if (after !== undefined) {
    sql.push('changed_seq < ?');
    params.push(after);
  }
  const rows = await ask.query<R>(
    `${from}${sql.length > 0 ? ` WHERE ${sql.join(' AND ')}` : ''} ORDER BY changed_seq DESC LIMIT ${limit + 1}`,
    params,
  );
  const shown = rows.slice(0, limit);
  return { rows: shown, next: rows.length > limit ? shown.at(-1)!.changedSeq : undefined };
}

const parcelsInput = z.strictObject({
  state: z.enum(['packed', 'posted', 'arrived', 'assumed', 'lost', 'came-back']).optional(),
  /** An item number. */
  number: z.string().trim().min(1).max(40).optional(),
  ...paging,
});

async function parcels(ask: Ask, input: z.infer<typeof parcelsInput>): Promise<Answered> {
  const found = await page<{ changedSeq: number; orders: string }>(
    ask,
    `SELECT parcel, orders, country, state, placed, promise, packed, posted, ended, service, number, weight, format, packaging, cost, currency, changed_seq AS changedSeq FROM parcels`,
    [input.state && ['state = ?', input.state], input.number && ['number = ?', input.number.toUpperCase()]],
    input,
  );
  const rows = found.rows.map((row) => ({
    ...row,
    keys: row.orders.split(' '),
    orders: row.orders
      .split(' ')
      .map((key) => key.slice(key.indexOf('/') + 1))
      .join(', '),
  }));
  return {
    sentence: `${rows.length}${found.next ? ' or more' : ''} parcels.`,
    rows,
    notes: [],
    figures: [
      {
        figure: 'table',
        title: 'Parcels',
        columns: [
          { field: 'orders', label: 'Orders', kind: 'text' },
          { field: 'country', label: 'To', kind: 'text' },
          { field: 'state', label: 'State', kind: 'code' },
          { field: 'packed', label: 'Packed', kind: 'day', wide: true },
          { field: 'posted', label: 'Posted', kind: 'day' },
          { field: 'number', label: 'Number', kind: 'text' },
          { field: 'weight', label: 'Grams', kind: 'count' },
          { field: 'cost', label: 'Postage', kind: 'money' },
        ],
      },
    ],
    ...(found.next ? { more: { next: found.next } } : {}),
  };
}

export const parcelsReport = report({ title: 'Parcels', unlisted: true, input: parcelsInput, run: parcels });
