import codes from 'currency-codes';
import { expect, test } from 'vitest';
import { digitsOf, moneyInWords } from '../../server/contract/amounts.ts';
import { minorDigits } from '../../server/contract/money.ts';

/** Units of account, precious metals and codes for tests: no money that anybody pays with. */
const NO_MONEY = /^X(A|B|D|P|S|T|U|X)/;

// ISO 4217, list one, as the package currency-codes carries it.
test('an amount has the minor digits of ISO 4217 in every currency, with the list or without it', () => {
  const paid = codes
    .codes()
    .filter((code) => !NO_MONEY.test(code) || ['XAF', 'XPF', 'XOF', 'XCD'].includes(code));
  expect(paid.length).toBeGreaterThan(150);
  const unlike = paid.filter((code) => digitsOf(code) !== minorDigits(code));
  expect(unlike).toEqual([]);
});

test('and reads so', () => {
  expect(moneyInWords({ amount: 1850, currency: 'GBP' })).toBe('£18.50');
  expect(moneyInWords({ amount: 1850, currency: 'JPY' })).toBe('JP¥1,850');
  expect(moneyInWords({ amount: 150_000, currency: 'HUF' })).toMatch(/1,500\.00/);
});
