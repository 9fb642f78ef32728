/** How rates are said in words. */
import { between } from '../../server/contract/reports/words.ts';
import { FEW_FIRINGS } from '../../server/contract/statistics/cluster.ts';
import type { Interval } from '../../server/contract/statistics/interval.ts';

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
