export interface GapLimits {
  /** Mean number of firings between two with the fault. */
  readonly centre: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Three-sigma limits for counts between rare events, geometric distribution from 0 with the mean as
 * centre line: F. C. Kaminsky et al., J. Qual. Technol. 24 (1992) 63–69; J. C. Benneyan, Health
 * Care Manag. Sci. 4 (2001) 305–318. Undefined without a gap.
 */
export function gChart(gaps: readonly number[]): GapLimits | undefined {
  if (gaps.length === 0) return undefined;
  const centre = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  const reach = 3 * Math.sqrt(centre * (centre + 1));
  return { centre, low: Math.max(0, centre - reach), high: centre + reach };
}

/** Samples without the event between one with it and the next: the open stretches at both ends are no gaps. */
export function gapsBetween(happened: readonly boolean[]): number[] {
  const at = happened.flatMap((yes, n) => (yes ? [n] : []));
  return at.slice(1).map((n, before) => n - at[before]! - 1);
}
