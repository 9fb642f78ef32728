/** How rates are said in words. */
import { FEW_FIRINGS } from '../../server/contract/statistics/cluster.ts';
import type { Interval } from '../../server/contract/statistics/interval.ts';

export const plural = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** '16', or '0.4' where a whole number would say nothing. */
export function percent(rate: number): string {
  const hundredths = 100 * rate;
  if (hundredths > 0 && hundredths < 0.95) return hundredths < 0.05 ? '0.1' : hundredths.toFixed(1);
  if (hundredths < 100 && hundredths > 99.05)
    return hundredths.toFixed(1) === '100.0' ? '99.9' : hundredths.toFixed(1);
  return String(Math.round(hundredths));
}

export const between = ({ low, high }: Interval): string =>
  `between ${percent(low)} % and ${percent(high)} % is believable`;

/** A p or q value as it is read: two figures, or that it is small. */
export function chanceSaid(p: number | null): string {
  if (p === null) return '';
  if (p < 0.001) return 'under 0.001';
  return p < 0.1 ? p.toFixed(3) : p.toFixed(2);
}

export interface Said {
  readonly affected: number;
  readonly pieces: number;
  readonly firings: number;
  /** The cluster interval where there is one, or else Wilson's. */
  readonly believable: Interval;
}

/** '9 of 31; between 16 % and 47 % is believable'. */
export function saidOf({ affected, pieces, firings, believable }: Said): string {
  const range = `${affected} of ${pieces}; ${between(believable)}`;
  if (firings === 1) return `${range}, were that one firing like any other`;
  return firings < FEW_FIRINGS ? `${range}, from few firings (${firings})` : range;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** 'a', 'a and b', 'a, b and c'. */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
