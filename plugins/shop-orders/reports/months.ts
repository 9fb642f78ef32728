/** Posted by the promised day, month by month. */
import { z } from 'zod';
import { type Answered, type Ask, report } from '../../../server/contract/plugin.ts';
import { wilson } from '../../../server/contract/statistics/wilson.ts';
import { periodInput, within } from './period.ts';

const input = z.strictObject({ ...periodInput.shape, country: z.string().length(2).optional() });

async function run(ask: Ask, { country, ...period }: z.infer<typeof input>): Promise<Answered> {
  const { where, params } = within('day', period);
  const found = await ask.query<{
    month: string;
    orders: number;
    posted: number;
    on_time: number;
    overdue: number;
  }>(
    `SELECT substr(day, 1, 7) AS month, sum(orders - cancelled) AS orders, sum(posted) AS posted, sum(on_time) AS on_time,
       sum(CASE WHEN due <> '' AND due < ? THEN orders ELSE 0 END) AS overdue
     FROM orders_by_day WHERE ${where}${country ? ' AND country = ?' : ''} GROUP BY 1 ORDER BY 1`,
    [ask.today, ...params, ...(country ? [country.toUpperCase()] : [])],
  );
  const rows = found.map(({ month, orders, posted, on_time: onTime, overdue }) => {
    const { low, high } = wilson({ affected: onTime, pieces: posted });
    return {
      month,
      orders,
      posted,
      onTime,
      onTimeRate: posted === 0 ? null : onTime / posted,
      low,
      high,
      overdue,
    };
  });
  return {
    from: period.from ?? null,
    to: period.to ?? null,
    sentence: rows.length === 0 ? 'No orders in this period.' : `${rows.length} months.`,
    rows,
    notes: ['By the month in which the order was placed; limits by Wilson, 95 %.'],
    figures: [
      {
        figure: 'series',
        title: 'Posted by the promised day, of those posted',
        x: { field: 'month', label: 'Month', kind: 'text' },
        lines: [{ field: 'onTimeRate', label: 'On time', kind: 'rate' }],
        lower: 'low',
        upper: 'high',
      },
    ],
  };
}

export const months = report({ title: 'On time, by month', input, run });
