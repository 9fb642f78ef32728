/** Amounts in words, with the minor digits of ISO 4217. Needs no list of currencies, so that the page has it too. */

/** Where what Intl shows is not what ISO 4217 (list one) counts in; a test compares every code. */
const ISO_DIGITS: Readonly<Record<string, number>> = {
  ...{ AFN: 2, ALL: 2, COP: 2, HUF: 2, IDR: 2, IQD: 3, IRR: 2, KPW: 2, LAK: 2, LBP: 2 },
  ...{ MGA: 2, MMK: 2, PKR: 2, SOS: 2, SYP: 2, YER: 2 },
};

/** Digits behind the decimal sign: 2 for GBP, 0 for JPY, 3 for KWD. @throws RangeError where it is no three letters */
export const digitsOf = (currency: string): number =>
  ISO_DIGITS[currency] ??
  new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ??
  2;

/** '£12.50', as British English writes it. */
export function moneyInWords({ amount, currency }: { amount: number; currency: string }): string {
  const digits = digitsOf(currency);
  const format = new Intl.NumberFormat('en-GB', {
    style: 'currency',
    currency,
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  });
  return format.format(amount / 10 ** digits);
}
