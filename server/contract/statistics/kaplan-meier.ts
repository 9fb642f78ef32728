/**
 * The product-limit estimate of how long something takes, where some have not come to their end yet.
 * E. L. Kaplan, P. Meier, J. Am. Stat. Assoc. 53 (1958) 457-481; variance: Greenwood's formula;
 * limits on the log(-log) scale: J. D. Kalbfleisch, R. L. Prentice, The Statistical Analysis of
 * Failure Time Data (1980), section 1.3; limits of the median: R. Brookmeyer, J. Crowley,
 * Biometrics 38 (1982) 29-41.
 */

/** How many came to their end at a time, and how many were last seen then. */
export interface Observed {
  readonly time: number;
  readonly ended: number;
  readonly censored: number;
}

export interface Step {
  readonly time: number;
  readonly atRisk: number;
  readonly ended: number;
  /** Share that takes longer. */
  readonly survival: number;
  /** Greenwood's standard error of `survival`. */
  readonly error: number;
  readonly low: number;
  readonly high: number;
}

/** Sorted by time, one for each. */
export function gathered(observed: readonly Observed[]): Observed[] {
  const times = new Map<number, { ended: number; censored: number }>();
  for (const { time, ended, censored } of observed) {
    const at = times.get(time);
    if (at) {
      at.ended += ended;
      at.censored += censored;
    } else times.set(time, { ended, censored });
  }
  return [...times].map(([time, counts]) => ({ time, ...counts })).sort((a, b) => a.time - b.time);
}

const Z95 = 1.959963984540054;

/** A step for each time at which something ended. What is last seen at that very time still counts as at risk. */
export function kaplanMeier(observed: readonly Observed[], z = Z95): Step[] {
  const times = gathered(observed);
  let atRisk = times.reduce((sum, { ended, censored }) => sum + ended + censored, 0);
  let survival = 1;
  let greenwood = 0;
  const steps: Step[] = [];
  for (const { time, ended, censored } of times) {
    if (ended > 0) {
      survival *= 1 - ended / atRisk;
      greenwood += ended / (atRisk * (atRisk - ended));
      steps.push({ time, atRisk, ended, survival, ...limits(survival, greenwood, z) });
    }
    atRisk -= ended + censored;
  }
  return steps;
}

function limits(survival: number, greenwood: number, z: number) {
  if (survival === 0) return { error: 0, low: 0, high: 0 };
  const wide = (z * Math.sqrt(greenwood)) / Math.log(survival);
  return {
    error: survival * Math.sqrt(greenwood),
    low: survival ** Math.exp(-wide),
    high: survival ** Math.exp(wide),
  };
}

/** Rounding must not hide that a half is reached. */
const HALF = 0.5 + 1e-12;

/** The time by which half have come to their end; null where that is not reached. */
export const median = (steps: readonly Step[]): number | null => quantile(steps, 0.5);

/** The time by which this share has come to its end. */
export const quantile = (steps: readonly Step[], share: number): number | null =>
  steps.find((step) => step.survival <= 1 - share + (HALF - 0.5))?.time ?? null;

export const medianLimits = (steps: readonly Step[]): { low: number | null; high: number | null } => ({
  low: steps.find((step) => step.low <= HALF)?.time ?? null,
  high: steps.find((step) => step.high <= HALF)?.time ?? null,
});

/** Share that takes longer than `time`; after the last time seen it stays as it was. */
export const survivalAt = (steps: readonly Step[], time: number): number =>
  steps.findLast((step) => step.time <= time)?.survival ?? 1;
