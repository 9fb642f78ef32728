/**
 * Item numbers by UPU standard S10: two letters for the service, eight digits, a check digit, and the
 * two letters of the country. The check digit is 11 less the remainder by 11 of the digits weighted
 * 8, 6, 4, 2, 3, 5, 9, 7; 10 becomes 0 and 11 becomes 5 (S10, “check digit”).
 */
import { countryName, isCountry } from './countries.ts';

const WEIGHTS = [8, 6, 4, 2, 3, 5, 9, 7] as const;

/** @param serial eight digits */
export function checkDigit(serial: string): number {
  const sum = WEIGHTS.reduce((total, weight, at) => total + weight * Number(serial[at]), 0);
  const check = 11 - (sum % 11);
  return check === 10 ? 0 : check === 11 ? 5 : check;
}

export type ItemNumber =
  | { readonly number: string; readonly s10: boolean }
  /** What is wrong with it, and what would be right. */
  | { readonly wrong: string };

/** Letters that are taken for digits, and the digits. */
const ALIKE: Readonly<Record<string, string>> = {
  O: '0',
  Q: '0',
  D: '0',
  I: '1',
  L: '1',
  Z: '2',
  S: '5',
  B: '8',
  G: '6',
};

/** Long enough, and letters where S10 has them: somebody meant one. */
const MEANT = /^[A-Z]{2}[A-Z0-9]{9}[A-Z]{2}$/;
const NEARLY = /^[A-Z]{2}\d{7,11}[A-Z]{2}$/;
const OTHER = /^[A-Z0-9-]{4,40}$/;

/** Reads a number as it is typed or scanned. Numbers of other carriers are taken as they are. */
export function readItemNumber(text: string): ItemNumber {
  const number = text
    .normalize('NFKC')
    .toUpperCase()
    .replace(/[\s.]+/g, '');
  if (MEANT.test(number)) return readS10(number);
  if (NEARLY.test(number))
    return {
      wrong: `${number} has ${number.length - 4} digits; an item number has nine between its letters, like RB123456785GB.`,
    };
  if (OTHER.test(number)) return { number, s10: false };
  return {
    wrong: `“${text.slice(0, 40)}” is no item number: it has letters and digits only, 4 to 40 of them, like RB123456785GB.`,
  };
}

function readS10(number: string): ItemNumber {
  const digits = number.slice(2, 11);
  const letter = [...digits].findIndex((it) => it > '9');
  if (letter >= 0) {
    const found = digits[letter]!;
    const instead = ALIKE[found];
    const meant = instead ? `the digit ${instead} is probably meant` : 'a digit is meant';
    return { wrong: `${number} has the letter ${found} at place ${letter + 3}, where ${meant}.` };
  }
  const country = number.slice(11);
  if (!isCountry(country))
    return {
      wrong: `${number} ends in ${country}, which is no country (ISO 3166-1); look at the last two letters.`,
    };
  const check = checkDigit(digits.slice(0, 8));
  if (check === Number(digits[8])) return { number, s10: true };
  const swapped = swapsThatFit(digits).map((at) => {
    const right = digits.slice(0, at) + digits[at + 1] + digits[at] + digits.slice(at + 2);
    return number.slice(0, 2) + right + country;
  });
  const perhaps =
    swapped.length > 0 && swapped.length <= 3
      ? `, or two beside each other are swapped (${swapped.join(' or ')} would fit)`
      : '';
  return {
    wrong: `${number} does not fit its check digit: ${digits[8]} is there and ${check} would be right. One of the digits is wrong${perhaps}; look at it again.`,
  };
}

/** Where two neighbours would have to be swapped for the number to fit. */
function swapsThatFit(digits: string): number[] {
  const fits = (text: string) => checkDigit(text.slice(0, 8)) === Number(text[8]);
  return [...digits.slice(1)].flatMap((next, at) => {
    if (next === digits[at]) return [];
    return fits(digits.slice(0, at) + next + digits[at] + digits.slice(at + 2)) ? [at] : [];
  });
}

/**
 * What the first letter says (UPU S10, service indicators).
 * @param number of S10
 */
export function serviceOf(number: string): string | undefined {
  const SERVICES: Readonly<Record<string, string>> = {
    C: 'parcel',
    E: 'express',
    H: 'e-commerce parcel',
    L: 'tracked letter',
    M: 'M bag',
    R: 'registered letter',
    U: 'letter, not tracked',
    V: 'insured letter',
  };
  return SERVICES[number[0]!];
}

export const originOf = (number: string): string => countryName(number.slice(-2));
