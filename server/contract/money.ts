/** Minor units of currencies (ISO 4217, list one). Amounts are whole minor units everywhere. */
import codes from 'currency-codes';

/** Digits behind the decimal sign: 2 for GBP, 0 for JPY, 3 for KWD; undefined for a code that is none. */
export const minorDigits = (currency: string): number | undefined => codes.code(currency)?.digits;

export const isCurrency = (currency: string): boolean => minorDigits(currency) !== undefined;

/** 1250 of GBP is '12.50'. @throws RangeError for a currency that is none */
export function plainAmount(amount: number, currency: string): string {
  const digits = minorDigits(currency);
  if (digits === undefined) throw new RangeError(`${currency} is no currency of ISO 4217`);
  return (amount / 10 ** digits).toFixed(digits);
}
