/** Firsts, seconds, wasters and money lost, this year and the year before. */
import type { Ask } from '../../../server/contract/plugin.ts';
import type { Year } from '../../../server/contract/year.ts';
import { type Sums, sums, type Total, total } from '../sums.ts';
import type { YearSpan } from './span.ts';

export interface Lost {
  readonly currency: string;
  readonly lost: number;
  readonly before: number;
}

export interface Totals {
  readonly now: Total;
  readonly before: Total;
  /** A row for each currency: money of several is never added up. */
  readonly lost: readonly Lost[];
}

const lostIn = (rows: readonly Sums[], currency: string): number =>
  Math.round(rows.find((row) => row.currency === currency)?.lost ?? 0);

export async function totals(ask: Ask, span: YearSpan, owners: readonly string[]): Promise<Totals> {
  const [now, before] = await Promise.all(
    [{ from: span.from, to: span.until } satisfies Year, span.before].map((days) =>
      sums(ask, 'all', "''", { ...days, owners: owners as never }),
    ),
  );
  const own = ask.settings.currency;
  const currencies = [...new Set([own, ...[...now!, ...before!].map((row) => row.currency)])];
  return {
    now: total(now!),
    before: total(before!),
    lost: currencies
      .map((currency) => ({ currency, lost: lostIn(now!, currency), before: lostIn(before!, currency) }))
      .filter(({ currency, lost, before: then }) => currency === own || lost > 0 || then > 0),
  };
}
