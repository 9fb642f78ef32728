import { minorDigits } from '../money.ts';
import type { Reading } from './cell.ts';
import { unfit } from './cell.ts';

const MOST = 1e11;

export interface CurrencySigns {
  readonly currency: string;
  /** Digits behind the decimal sign (ISO 4217): 2 for GBP, 0 for JPY, 3 for KWD. */
  readonly digits: number;
  /** What may stand beside the amount, in lower case: '£', 'gbp'. */
  readonly signs: readonly string[];
  /** A price of this currency, for a message. */
  readonly example: string;
}

export function currencySigns(currency: string): CurrencySigns {
  const format = (currencyDisplay: 'symbol' | 'narrowSymbol') =>
    new Intl.NumberFormat('en-GB', { style: 'currency', currency, currencyDisplay });
  const digits = minorDigits(currency) ?? format('symbol').resolvedOptions().maximumFractionDigits ?? 2;
  const signs = (['symbol', 'narrowSymbol'] as const).map(
    (display) =>
      format(display)
        .formatToParts(0)
        .find(({ type }) => type === 'currency')?.value ?? currency,
  );
  const example = `${digits === 0 ? '2400' : (24).toFixed(digits)} in ${currency}`;
  return {
    currency,
    digits,
    signs: [...new Set([currency, ...signs].map((sign) => sign.toLowerCase()))],
    example,
  };
}

/** An amount with or without the studio's currency sign, in minor units (pence, cents, fils). */
export function readMoney(cell: string, { digits, signs, example }: CurrencySigns): Reading<number> {
  const wrong = unfit(cell, `a price like ${example}`);
  let text = cell.toLowerCase();
  const sign = signs.find((known) => text.startsWith(known) || text.endsWith(known));
  if (sign !== undefined)
    text = text.startsWith(sign) ? text.slice(sign.length) : text.slice(0, -sign.length);
  /* Spaces and apostrophes can only divide thousands. */
  const amount = text.trim().replace(/(?<=\d)[\s'’](?=\d{3}(\D|$))/g, '');
  const parts = /^(\d[\d.,]*)$/.test(amount) ? split(amount, digits) : undefined;
  if (parts === undefined) return wrong;
  const minor = Number(parts.whole) * 10 ** digits + Number(parts.fraction.padEnd(digits, '0'));
  return Number.isSafeInteger(minor) && minor <= MOST ? { value: minor } : wrong;
}

/** Whole and fraction: the last of . and , is the decimal sign unless it can only divide thousands. */
function split(amount: string, digits: number): { whole: string; fraction: string } | undefined {
  const at = Math.max(amount.lastIndexOf('.'), amount.lastIndexOf(','));
  if (at < 0) return { whole: amount, fraction: '' };
  const mark = amount[at]!;
  const behind = amount.length - at - 1;
  const other = mark === '.' ? ',' : '.';
  const repeated = amount.indexOf(mark) !== at;
  /* '1,200' is a thousand and more; '24.555' may be that or a slip, so it is asked for again. */
  const thousands = behind === 3 && (repeated || mark === ',');
  if (thousands) {
    return grouped(amount, mark) && !amount.includes(other)
      ? { whole: amount.replaceAll(mark, ''), fraction: '' }
      : undefined;
  }
  const whole = amount.slice(0, at);
  if (behind < 1 || behind > digits || repeated) return undefined;
  if (whole.includes(other) && !grouped(whole, other)) return undefined;
  return { whole: whole.replaceAll(other, ''), fraction: amount.slice(at + 1) };
}

const grouped = (whole: string, mark: string): boolean => {
  const [head, ...groups] = whole.split(mark);
  return /^\d{1,3}$/.test(head!) && groups.every((group) => /^\d{3}$/.test(group));
};
