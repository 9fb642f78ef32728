/** Numbers, money, days and moments by Intl, in the form the user sets and the studio's zone. */

import { signal } from '@preact/signals';
import { digitsOf } from '../../server/contract/amounts.ts';

export interface Habits {
  /** BCP 47, for dates and numbers. */
  readonly locale: string;
  /** IANA zone of the studio's days. */
  readonly zone: string;
  /** ISO 4217. */
  readonly currency: string;
}

export const habits = signal<Habits>({ locale: 'en-GB', zone: 'Europe/London', currency: 'GBP' });

const formats = new Map<string, unknown>();

/** Formats are dear to make and used a thousand times a screen. */
function kept<F>(kind: string, options: object, make: (locale: string) => F): F {
  const { locale } = habits.value;
  const key = `${kind} ${locale} ${JSON.stringify(options)}`;
  const known = formats.get(key) as F | undefined;
  const format = known ?? make(locale);
  if (!known) formats.set(key, format);
  return format;
}

const numberFormat = (options: Intl.NumberFormatOptions): Intl.NumberFormat =>
  kept('number', options, (locale) => new Intl.NumberFormat(locale, options));

const dateFormat = (options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat =>
  kept('date', options, (locale) => new Intl.DateTimeFormat(locale, options));

export const countText = (n: number): string => numberFormat({ maximumFractionDigits: 0 }).format(n);
export const numberText = (n: number): string => numberFormat({ maximumFractionDigits: 2 }).format(n);

/** A fraction 0..1 as per cent; one decimal below 10 %, where it tells. */
export const rateText = (fraction: number): string =>
  numberFormat({ style: 'percent', maximumFractionDigits: Math.abs(fraction) < 0.0995 ? 1 : 0 }).format(
    fraction,
  );

/** Minor units (pence) as money, with as many places as the currency has. */
export function moneyText(minor: number, currency: string = habits.value.currency): string {
  const digits = digitsOf(currency);
  const places = { minimumFractionDigits: digits, maximumFractionDigits: digits };
  return numberFormat({ style: 'currency', currency, ...places }).format(minor / 10 ** digits);
}

/** Minor units as they stand in a field: '4.50'. */
export function amountText(minor: number, currency: string = habits.value.currency): string {
  const digits = digitsOf(currency);
  return (minor / 10 ** digits).toFixed(digits);
}

/** The most that an amount may be (`money` of the contract). */
const MOST = 1e11;

/** '4.50' as minor units; undefined where it is no amount, or finer than the currency. Comma or point. */
export function minorUnits(text: string, currency: string = habits.value.currency): number | undefined {
  const plain = /^(\d{1,12})(?:[.,](\d*))?$/.exec(text.trim());
  const digits = digitsOf(currency);
  const [, whole, fraction = ''] = plain ?? [];
  if (whole === undefined || fraction.length > digits) return undefined;
  const minor = Number(whole) * 10 ** digits + Number(fraction.padEnd(digits, '0'));
  return minor <= MOST ? minor : undefined;
}

const isDay = (at: string): boolean => /^\d{4}-\d\d-\d\d$/.test(at);
/** Noon UTC of a day, so that no zone moves it. */
const noon = (day: string): Date => new Date(`${day}T12:00:00Z`);

export const dayText = (day: string): string =>
  isDay(day)
    ? dateFormat({ day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' }).format(noon(day))
    : dateFormat({ day: 'numeric', month: 'short', year: 'numeric', timeZone: habits.value.zone }).format(
        new Date(day),
      );

export const shortDayText = (at: string): string =>
  dateFormat({ day: 'numeric', month: 'short', timeZone: isDay(at) ? 'UTC' : habits.value.zone }).format(
    isDay(at) ? noon(at) : new Date(at),
  );

/** The day, with its year where that is not this year's. */
export const nearDayText = (at: string): string =>
  yearOf(at) === yearOf(today()) ? shortDayText(at) : dayText(at);

export const timeText = (at: string): string =>
  isDay(at)
    ? ''
    : dateFormat({
        hour: '2-digit',
        minute: '2-digit',
        hourCycle: 'h23',
        timeZone: habits.value.zone,
      }).format(new Date(at));

export const momentText = (at: string): string =>
  isDay(at) ? dayText(at) : `${dayText(at)}, ${timeText(at)}`;

export const yearOf = (at: string): string =>
  isDay(at)
    ? at.slice(0, 4)
    : dateFormat({ year: 'numeric', timeZone: habits.value.zone }).format(new Date(at));

/** '2026-05' as 'May 2026'. */
export const monthText = (month: string): string =>
  dateFormat({ month: 'short', year: 'numeric', timeZone: 'UTC' }).format(noon(`${month}-15`));

/** The day so many days after today. */
export function dayFrom(days: number): string {
  const day = new Date(`${today()}T00:00:00Z`);
  day.setUTCDate(day.getUTCDate() + days);
  return day.toISOString().slice(0, 10);
}

/** Today in the studio's zone, 'YYYY-MM-DD'. */
export function today(now: Date = new Date()): string {
  const { zone } = habits.value;
  const minute = Math.floor(now.getTime() / 60_000);
  // Asked for on every line of a list; a day begins with a minute.
  if (lastTold?.zone !== zone || lastTold.minute !== minute) {
    const options = { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' } as const;
    const format = kept('iso day', options, () => new Intl.DateTimeFormat('en-CA', options));
    lastTold = { zone, minute, day: format.format(now) };
  }
  return lastTold.day;
}
let lastTold: { readonly zone: string; readonly minute: number; readonly day: string } | undefined;

/** '12 pieces', '1 piece'. */
export const pieces = (n: number): string => `${countText(n)} ${n === 1 ? 'piece' : 'pieces'}`;
export const firings = (n: number): string => `${countText(n)} ${n === 1 ? 'firing' : 'firings'}`;

/** 'a, b and c'. */
export const listText = (words: readonly string[]): string =>
  kept('list', {}, (locale) => new Intl.ListFormat(locale, { type: 'conjunction' })).format(
    words as string[],
  );
export const sentenceCase = (text: string): string =>
  text.charAt(0).toLocaleUpperCase(habits.value.locale) + text.slice(1);
